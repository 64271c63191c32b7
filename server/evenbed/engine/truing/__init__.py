"""Truing the rails: what a level shows, taken together, and what to raise or let down."""
