"""Numbers in, numbers out: every published calculation, with its unit and its source."""
