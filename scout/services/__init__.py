"""What a grower does, one module for each thing; the only layer that sees both sides."""
