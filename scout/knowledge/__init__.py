"""Reads the data folder of the same name: what is known of crops, causes and controls."""
