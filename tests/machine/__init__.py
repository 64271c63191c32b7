"""A machine that drives many phones, each the app's own code, and a real service through whatever can go wrong."""
