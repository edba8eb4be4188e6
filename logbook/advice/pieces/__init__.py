"""What pieces became: read, judged, counted, complete or to be made again."""
