"""Programs that developers run: reference pages and schemas from the models."""
