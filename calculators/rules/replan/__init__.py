"""The rest of a batch planned anew from its state, when a reading, an hour or a fault has left the plan.

Numbers in, ways as data out: the same rules for the day-book and for a batch to practise with. ``steep`` plans a batch
that is in the steep, ``bed`` one on the floor or in the drum; ``faults`` says what each fault asks of every way.
"""
