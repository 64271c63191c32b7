"""Everything that checks Evenbed."""
