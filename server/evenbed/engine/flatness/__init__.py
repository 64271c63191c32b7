"""The check of the finished bed: a straightedge laid over it by computation, F-numbers, what to work over."""
