"""What fitting tells others, without knowing them."""

from django.dispatch import Signal

yard_changed = Signal()  # sent after the commit; sender: the Yard class; yard: its pk
