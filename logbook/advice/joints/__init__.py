"""Joints: stand-through, edges, threads, in the worst case."""
