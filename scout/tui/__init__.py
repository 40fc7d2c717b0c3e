"""The terminal screens: they show what a service says and turn a key into one service call."""
