"""The pages of certificates."""
