"""The finished floor: what the top makes of doorways and fixtures, and what lies between it and the subfloor."""
