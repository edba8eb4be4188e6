"""Keys take effect one after the other, however fast they come.

A printable key works in the line that has the focus, any other one travels up
to the app first; so of a burst (a caliper that types, a paste into a terminal, a
fast hand) an Enter could come after the letters typed behind it. Here a key is
let in only when the one before has had its whole way: up from the line to the
app, and, where it opened another screen, until that screen has its line ready.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Awaitable, Callable
from functools import partial
from time import monotonic
from typing import Any

from textual import events
from textual.app import App, ReturnType
from textual.message_pump import MessagePump
from textual.screen import Screen

LOST_AFTER_S = 2.0
"""A key whose way ended in a widget that went away is given up after this."""
LOOK_AGAIN_S = 0.02


class _Climb:
    """The way up behind a key, one message queue after the other.

    Each step goes through its queue as a method: to pass on a fresh function with its
    arguments, as `call_later` does, costs as much as the step.
    """

    def __init__(
        self, way: list[MessagePump], arrived: Callable[[], Awaitable[None]]
    ) -> None:
        """Go this way, then call `arrived`."""
        self._way, self._arrived = way, arrived

    def go_up(self) -> None:
        """Set out; who is gone by now is passed by."""
        while self._way:
            step = self.go_up if self._way[1:] else self._end
            if self._way.pop(0).post_message(events.Callback(step)):
                return

    async def _end(self) -> None:
        await self._arrived()


class KeysInOrder(App[ReturnType]):
    """An app that takes keys and pastes strictly in the order they came."""

    def __init__(self) -> None:
        """Start with no key on its way."""
        super().__init__()
        self._keys: deque[events.Key | events.Paste] = deque()
        self._on_its_way: float | None = None
        self.keys_let_in = 0

    @property
    def keys_at_rest(self) -> bool:
        """Tell whether every key that came has done what it does."""
        return self._on_its_way is None and not self._keys

    @property
    def sign_behind(self) -> str:
        """Give what the key types that came behind the one on its way, if one did."""
        for event in [*self._keys][:1]:
            if isinstance(event, events.Key):
                return event.character or ""
        return ""

    async def on_event(self, event: events.Event) -> None:
        """Queue a fresh key or paste; all else goes its usual way."""
        if isinstance(event, events.Key | events.Paste) and not event.is_forwarded:
            self._keys.append(event)
            if self._on_its_way is None:
                await self._let_in()
            elif len(self._keys) == 1:
                self.set_timer(LOST_AFTER_S, partial(self._lost, self._on_its_way))
            return
        await super().on_event(event)

    async def _let_in(self) -> None:
        event = self._keys.popleft()
        self.keys_let_in += 1
        self._on_its_way = started = monotonic()
        screen = self.screen
        way = [*(self.focused or screen).ancestors_with_self]
        await super().on_event(event)
        # Once behind the key itself, once behind what the widget said because of it.
        _Climb([*way, *way, self], lambda: self._arrived(started, screen)).go_up()

    async def _arrived(self, started: float, screen: Screen[Any]) -> None:
        """Let the next key in, unless another screen is just getting ready."""
        if self._on_its_way != started or not self.screen_stack:
            return
        changed = self.screen is not screen
        ready = self.focused is not None and self.screen.is_mounted
        if changed and not ready and monotonic() - started < LOST_AFTER_S:
            self.set_timer(LOOK_AGAIN_S, partial(self._arrived, started, screen))
            return
        await self._go_on()

    async def _lost(self, started: float) -> None:
        if self._on_its_way == started:
            await self._go_on()

    async def _go_on(self) -> None:
        self._on_its_way = None
        if self._keys and self.screen_stack:
            await self._let_in()
