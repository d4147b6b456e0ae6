"""Pages of practice and assessments."""
