"""What goes into the engine and what comes out: frozen dataclasses, and the one way to read and write them."""
