"""Guide, builder notes and errata, written from templates."""
