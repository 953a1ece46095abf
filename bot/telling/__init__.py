"""What is told of a yard and of what is kept there: lines, figures and the buttons beside them."""
