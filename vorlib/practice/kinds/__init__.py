"""One module for each kind of question; a module here is found and registered by itself."""
