"""Pages of the training app: find inside the shop, check the form, make one call, answer."""
