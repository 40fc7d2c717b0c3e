"""Joins what is known with what was seen: ranked causes, reasons, the next observation."""
