"""Tables of points as surveyors write them, read in and written out."""
