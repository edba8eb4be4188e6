"""Screws, inserts and rivets, their holes and the edges near them."""
