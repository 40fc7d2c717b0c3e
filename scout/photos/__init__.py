"""Pictures: taken in small, upright and without place; nothing is imported here, so that nothing loads early."""
