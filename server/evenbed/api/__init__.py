"""The web's side: routes of a few lines each, one shape for every error, the app's own pages."""
