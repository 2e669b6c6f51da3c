"""What guides the jaw: condylar paths, side shift, incisal guide table, named excursions."""
