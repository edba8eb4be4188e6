"""What materials do and measure: heat, moisture, coatings, bought sheet."""
