"""Whether a verb says of another that it was done: pressed, of press; bent, of bend."""

from __future__ import annotations

_IRREGULAR = {
    "bend": "bent", "bind": "bound", "bring": "brought", "build": "built", "cut": "cut",
    "draw": "drew", "drive": "drove", "feed": "fed", "fit": "fit", "get": "got",
    "grind": "ground", "hang": "hung", "hold": "held", "lay": "laid", "leave": "left",
    "let": "let", "make": "made", "put": "put", "run": "ran", "saw": "sawn",
    "set": "set", "sew": "sewn", "shut": "shut", "slide": "slid", "spin": "spun",
    "split": "split", "spread": "spread", "stick": "stuck", "sweep": "swept",
    "take": "took", "weave": "wove", "wind": "wound",
}  # fmt: skip
"""Verbs of the bench whose past no ending makes; general English grammar, no source."""


def is_past_of(said: str, verb: str) -> bool:
    """Tell whether a word is the past of a verb: drilled, glued, clipped, carried."""
    if not verb:
        return False
    ends = [verb + "ed", verb + verb[-1] + "ed"]
    ends += [verb + "d"] if verb.endswith("e") else []
    ends += [verb[:-1] + "ied"] if verb.endswith("y") else []
    return said in ends or said == _IRREGULAR.get(verb)
