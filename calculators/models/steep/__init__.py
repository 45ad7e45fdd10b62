"""How barley drinks: the steep's course, its doubt, its fit, its plan, its vessel and its waters."""
