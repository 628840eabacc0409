"""Changes the code on purpose, one place at a time, and looks whether a test notices."""
