"""The catalogue of every fact the rules may ask about, and the values facts take."""
