"""vorlib: the geometry of VOR navigation, for learning and teaching on the ground."""
