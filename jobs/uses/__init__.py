"""What people ask for, one module a subject; a use case takes the open unit of work and `now`."""
