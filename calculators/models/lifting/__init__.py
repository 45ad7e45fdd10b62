"""What people may be asked to lift, carry and shovel."""
