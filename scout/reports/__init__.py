"""Text and tables made from services."""
