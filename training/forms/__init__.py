"""What people may type into the pages of the training app."""
