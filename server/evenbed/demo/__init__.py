"""An invented job with two rooms, for trying things out; `evenbed plan` takes its rooms as they are."""
