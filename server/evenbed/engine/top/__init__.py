"""The top of bed: its facets, and how each kind of top finds them."""
