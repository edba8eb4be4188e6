"""Gaps, joints, warmth and damp: what they come to, and what if."""
