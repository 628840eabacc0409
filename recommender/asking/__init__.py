"""What to ask of the bench next: a plan of readings, the next reading, the budget behind a size."""
