"""What sheets share in words: questions, cautions, remarks, and how a verdict is said."""
