"""The decision mathematics: pure functions over the model. No files, no clock, no words."""
