"""The MkDocs theme `casetrue`: templates around the page bodies."""
