"""What a house says of itself: the declaration of all that its file may hold, and what this house has put in it."""
