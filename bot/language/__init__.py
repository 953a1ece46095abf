"""How people write sizes, quantities, dates and names, and every sentence said back."""
