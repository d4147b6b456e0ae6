"""What people of the trade call things, and how we write days and lists: one table each. Pure."""
