"""Design files: their content, their shape, the parts they speak of."""
