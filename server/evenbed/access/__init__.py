"""Who may read and write: joining with a code, devices and their tokens, and a brake on guessing."""
