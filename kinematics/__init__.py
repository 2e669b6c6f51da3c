"""What is computed: guidance, pose, closure, contacts and what they mean.

Nothing here draws. Read the folders in this order, each imports only those before it:
geometry, guidance, casts, contact, teeth, planning, then the modules beside this one.
"""

__version__ = "0.1.0"
