"""Rails: where the strips go, how they move, and how high the ramp under each is."""
