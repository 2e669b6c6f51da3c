"""Two runs side by side: what is gone, new or changed from one case to another."""
