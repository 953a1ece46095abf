"""What people see and say, and the wiring: the top floor of Soilbell."""
