"""Cases with expectations, run through the pipeline."""
