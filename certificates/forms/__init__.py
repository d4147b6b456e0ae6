"""What people may type into the pages of certificates."""
