"""What a person sees and types: command line, report, pictures. Computes nothing of the trade."""
