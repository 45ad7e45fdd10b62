"""What is done at once where a fan stands with grain inside: the words that every limit, sheet and page gives alike."""

AWAY = "everybody away from the hatches, ducts and drains"
