"""One file a calculator: questions, working, answers."""
