"""What answers say in numbers: shares, and how sure of them one may be. Pure."""
