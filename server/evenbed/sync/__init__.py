"""The rules by which phones and office stay one: pure, and independent of any database."""
