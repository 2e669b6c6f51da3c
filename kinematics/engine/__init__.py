"""Many runs of one function, shared out, kept as they finish, and taken up again."""
