"""Which shapes of an SVG show, after the properties told at them and around them."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

_DECLARED = re.compile(r"\s*([\w-]+)\s*:\s*([^;]*?)\s*(?:!important\s*)?(?:;|$)")
_HIDING = re.compile(r"[{;]\s*(?:display|visibility|transform|clip-path)\s*:")
_MOVING = ("clip-path", "mask")


def hides_by_rule(rules: str) -> bool:
    """Tell whether a style sheet may hide or move what is drawn."""
    return _HIDING.search(rules) is not None


@dataclass(frozen=True, slots=True)
class Style:
    """What holds where an element stands; `classed` where a sheet may say otherwise.

    `unmeasured` where its size cannot be told: it is clipped, or moved by its style.
    """

    hidden: bool = False
    unmeasured: bool = False
    classed: bool = False
    fill: str = ""
    stroke: str = ""

    def within(self, attributes: dict[str, str]) -> Style:
        """Give the style of an element with these attributes that stands inside."""
        told = dict(attributes)
        by_style = dict(_DECLARED.findall(attributes.get("style", "")))
        told |= by_style
        hidden = told.get("display") == "none"
        hidden |= told.get("visibility") in ("hidden", "collapse")
        clipped = any(told.get(name, "none") != "none" for name in _MOVING)
        return replace(
            self,
            hidden=self.hidden or hidden,
            unmeasured=clipped or by_style.get("transform", "none") != "none",
            classed=self.classed or "class" in attributes,
            fill=told.get("fill", self.fill),
            stroke=told.get("stroke", self.stroke),
        )

    @property
    def painted(self) -> bool:
        """Whether a shape shows: it is filled unless told not to, drawn where told."""
        return self.classed or self.fill != "none" or self.stroke not in ("", "none")
