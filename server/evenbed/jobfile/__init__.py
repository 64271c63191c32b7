"""One job as one file: made, looked into without believing any of it, and taken in.

The format stands in DEVELOPERS.md.
"""
