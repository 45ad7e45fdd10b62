"""The lines of the day-book: what may be written, read, sent out and taken in."""
