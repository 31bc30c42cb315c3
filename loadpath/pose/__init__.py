"""Kinematics of the model taken rigid."""
