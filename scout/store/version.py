"""Which shape of the tables this program reads; asks no library, so that start-up can read it."""

SCHEMA_VERSION = "0004"
"""The newest revision in migrations/versions."""

KNOWN_VERSIONS = ("0001", "0002", "0003", "0004")
"""Every revision this program can bring up to date, oldest first."""
