"""The day-book as HTML and charts."""
