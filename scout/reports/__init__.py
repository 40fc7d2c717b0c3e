"""Sheets made for paper: plain values from services in, one self-contained HTML file out."""
