"""What is kept: tables, transactions, migrations. Imports nothing of the floors above."""
