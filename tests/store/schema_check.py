"""Checks that assets/record.schema.json and the program agree on what a record is.

Everything the program writes must be valid, and a text that was changed somewhere must be judged alike by both, except
where the fault is one that a schema cannot express. Needs python3-jsonschema (an independent validator of JSON Schema
draft 2020-12).

Usage: schema_check.py JSON_PROBE SCHEMA
"""
import copy
import json
import random
import subprocess
import sys

try:
    from jsonschema import Draft202012Validator
except ImportError:
    sys.exit("schema_check.py: install python3-jsonschema")

BEYOND_A_SCHEMA = ("nothing in the text has the id", "two of them have the id", "say different times")
ODD_VALUES = [None, True, 0, -1, 1, 2.5, 1e300, 2**53 - 1, 2**53, 2**63, "", "other", "mass", [], {}, [1], {"x": 1}]


def places(node, path=()):
    yield path
    children = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for key, child in children:
        yield from places(child, path + (key,))


def at(node, path):
    for key in path:
        node = node[key]
    return node


def changed(document, rng):
    """The document with one place removed, added to or given another value."""
    out = copy.deepcopy(document)
    path = rng.choice([p for p in places(out) if p])
    parent, key = at(out, path[:-1]), path[-1]
    way = rng.randrange(3)
    if way == 0:
        del parent[key]
    elif way == 1 and isinstance(parent, dict):
        parent[rng.choice(["x", "id", "from", "until", "label", "portion"])] = rng.choice(ODD_VALUES)
    else:
        parent[key] = rng.choice(ODD_VALUES)
    return out


def main(probe, schema_file):
    with open(schema_file, encoding="utf-8") as file:
        schema = json.load(file)
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema)

    written = subprocess.run([probe, "make", "1", "12"], stdout=subprocess.PIPE, check=True).stdout
    documents = [json.loads(text) for text in written.decode("utf-8").split("\0")[:-1]]
    assert len(documents) == 12
    for document in documents:
        for error in validator.iter_errors(document):
            sys.exit(f"the program writes what the schema forbids: {error.json_path}: {error.message}")

    rng = random.Random(2)
    variants = [changed(rng.choice(documents), rng) for _ in range(800)]
    texts = "".join(json.dumps(variant) + "\0" for variant in variants)
    judged = subprocess.run([probe, "judge"], input=texts.encode("utf-8"), stdout=subprocess.PIPE, check=True)
    verdicts = judged.stdout.decode("utf-8").splitlines()
    assert len(verdicts) == len(variants)
    tally = {"both accept": 0, "both refuse": 0, "only the program can tell": 0}
    for variant, verdict in zip(variants, verdicts):
        error = next(validator.iter_errors(variant), None)
        if error is None and verdict == "ok":
            tally["both accept"] += 1
        elif error is not None and verdict != "ok":
            tally["both refuse"] += 1
        elif error is None and any(phrase in verdict for phrase in BEYOND_A_SCHEMA):
            tally["only the program can tell"] += 1
        else:
            said = f"{error.json_path}: {error.message}"[:300] if error else "valid"
            sys.exit(f"schema and program disagree.\nschema: {said}\nprogram: {verdict}")
    print(tally)
    assert tally["both accept"] > 50 and tally["both refuse"] > 50


if __name__ == "__main__":
    main(*sys.argv[1:])
