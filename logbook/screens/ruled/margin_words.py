"""What a fact, a kind or a topic is called in a column where its own name has no room.

The margin has ten columns beside the arrow; a name that is cut says nothing.
"""

from __future__ import annotations

_SHORT = {
    "answered_by": "answer",
    "answers_none": "no fault",
    "answers_too": "also",
    "characteristic": "dimension",
    "coated_faces": "faces",
    "cutting and stock": "cutting",
    "consequence": "leads to",
    "disposition": "what to do",
    "from_entries": "entries",
    "how_to_tell": "to tell it",
    "intended_use": "made for",
    "compensated": "in file",
    "interchanges": "swaps",
    "limits and fits": "fits",
    "limits_from": "limits by",
    "lower_limit": "at least",
    "met_by_others": "met by",
    "one_instrument": "one gauge",
    "published_at": "published",
    "room_behind": "behind it",
    "scale_error": "scale off",
    "set_anew_by": "set by",
    "setup_error": "set-up off",
    "side_effects": "it changes",
    "stop_using_until": "not until",
    "substitutes": "or instead",
    "target_chance": "chance",
    "thread_depth": "depth",
    "torque_result": "held?",
    "not_affected": "not in",
    "torque_with": "torque by",
    "uncertainty": "unsure by",
    "upper_limit": "at most",
    "what to do with it": "what to do",
}


def margin_word(fact: str) -> str:
    """Give the word for a fact of a record, or for its kind."""
    return _SHORT.get(fact, fact.replace("_", " "))
