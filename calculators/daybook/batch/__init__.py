"""One batch out of its lines: its course, what cannot be right, what comes next."""
