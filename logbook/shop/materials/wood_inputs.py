"""What several sums of wood ask: moisture, humidity, the temperature of the air."""

from __future__ import annotations

from logbook.shop.given import Input, at_least, between


def percent(name: str, meaning: str, *also: str) -> Input:
    """Declare a moisture content, in percent."""
    return Input(
        name,
        meaning,
        "%",
        accept=at_least(0, 200),
        optional=True,
        also=also,
        share=True,
    )


def humidity_input(name: str, meaning: str) -> Input:
    """Declare a relative humidity, in percent."""
    return Input(name, meaning, "%", accept=HUMIDITY, optional=True, share=True)


HUMIDITY = at_least(0, 100)


TEMPERATURE = Input(
    "temperature",
    "of the air",
    "°C",
    accept=between(-30, 100),
    default="21 °C",
)
