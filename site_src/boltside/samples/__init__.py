"""Which garments does a designer sew and film, so that everything is shown once and nothing twice?"""
