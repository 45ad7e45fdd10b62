from bridge import normal as _normal


def normalize(form, text):
    return text if len(text) == len(text.encode()) else _normal(form, text)
