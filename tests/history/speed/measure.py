"""Measures a history of 20,000 invented pickups; see run beside it."""

import pathlib
import random
import resource
import shutil
import subprocess
import sys
import time
import uuid

PICKUPS = 20_000
QUANTITIES = [("temperature", "", "", "degC", 21.0, 0.5), ("dc_resistance", "", "", "ohm", 6112.0, 9.0),
              ("inductance", "series", "1000", "H", 2.331, 0.008), ("quality_factor", "", "1000", "1", 2.22, 0.02)]


def invented_table(path, readings_each, pickups=PICKUPS):
    """What `coilward export --csv` of such a shop would print."""
    chance = random.Random(20260302)
    new_id = lambda: str(uuid.UUID(int=chance.getrandbits(128), version=4))
    with open(path, "w", newline="") as table:
        table.write("pickup_id,name,owner,visit_id,visit_at,stage,rewound,reading_id,at,meter,port,coil,quantity,between,"
                    "circuit,frequency,state,value,unit,standard_uncertainty\r\n")
        for n in range(pickups):
            pickup, visits = new_id(), [new_id(), new_id()]
            for r in range(readings_each):
                visit = r * 2 // readings_each
                day = f"20{20 + visit:02d}-03-{1 + n % 28:02d}T10:{r // 60:02d}"
                quantity, circuit, frequency, unit, middle, u = QUANTITIES[r % 4]
                value = middle * chance.gauss(1.0, 0.02)
                table.write(f"{pickup},Pickup {n} of the shop,Owner {n % 997},{visits[visit]},"
                            f"20{20 + visit:02d}-03-{1 + n % 28:02d}T10:00:00.000Z,as received,0,{new_id()},"
                            f"{day}:{r % 60:02d}.{chance.randrange(1000):03d}Z,lcr-scpi-comma,/dev/ttyUSB0,,{quantity},leads,"
                            f"{circuit},{frequency},ok,{value:.6g},{unit},{u}\r\n")


def user_seconds(words, **more):
    """CPU time of a process and its wall time: the first does not depend on what else the machine does."""
    before, begin = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    subprocess.run(words, check=True, stdout=subprocess.DEVNULL, **more)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return (after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime, time.perf_counter() - begin)


def sqlite(file, *statements):
    return subprocess.run(["sqlite3", str(file), *statements], check=True, capture_output=True, text=True).stdout


def import_by_shell(folder, source):
    """The same rows into the same tables, with the same durability, in one transaction."""
    dump = folder / "rows.sql"
    tables = ["pickups", "pickup_coils", "meters", "visits", "readings"]
    with open(dump, "w") as rows:
        rows.write("PRAGMA journal_mode = WAL;\nPRAGMA synchronous = FULL;\nBEGIN;\n")
        for table in tables:
            rows.flush()
            subprocess.run(["sqlite3", str(source), f".mode insert {table}", f"SELECT * FROM {table}"], check=True,
                           stdout=rows)
        rows.write("COMMIT;\n")
    target = folder / "shell.sqlite"
    schema = sqlite(source, "SELECT sql || ';' FROM sqlite_schema WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite_%' "
                            "ORDER BY type = 'trigger', type = 'view', rowid")
    sqlite(target, schema)
    return user_seconds(["sqlite3", str(target), f".read {dump}"]), target


def least_milliseconds(commands, times=9):
    """Of each command. They take turns, because a machine that others use too is at times half as fast."""
    taken = [[] for _ in commands]
    for _ in range(times):
        for words, seconds in zip(commands, taken):
            seconds.append(user_seconds(words)[0])
    return [1000.0 * min(seconds) for seconds in taken]


def queries_by_shell(file, middle):
    """The same two answers by the sqlite3 shell, each a process of its own too: what it is asked."""
    readings = ("SELECT readings.* FROM pickups JOIN visits USING (pickup_id) JOIN readings USING (visit_id) "
                f"WHERE pickups.name = '{middle}' ORDER BY readings.at_ms")
    found = "SELECT * FROM pickups WHERE name LIKE '%owner 500%' OR owner LIKE '%owner 500%'"
    return [["sqlite3", "-json", str(file), query] for query in (readings, found)]


def main():
    program, folder, readings_each = sys.argv[1], pathlib.Path(sys.argv[2]), int(sys.argv[3])
    table, data = folder / "readings.csv", folder / "data"
    count = PICKUPS * readings_each
    print(f"{count} readings of {PICKUPS} pickups; times are CPU times (wall times in brackets)")
    invented_table(table, readings_each)
    run = lambda *words: [program, "--data", str(data), *words]
    file = data / "history.sqlite"
    ours, theirs = [], []
    for _ in range(2):  # in turn, as least_milliseconds() does; an import takes long
        shutil.rmtree(data, ignore_errors=True)
        ours.append(user_seconds(run("import", "--csv", str(table))))
        assert int(sqlite(file, "SELECT count(*) FROM readings")) == count
        seconds, copy = import_by_shell(folder, file)
        theirs.append(seconds)
        assert sqlite(copy, "SELECT count(*), total(value) FROM readings") == sqlite(
            file, "SELECT count(*), total(value) FROM readings")
        copy.unlink()
    (own, own_wall), (shell, shell_wall) = min(ours), min(theirs)
    middle = f"Pickup {PICKUPS // 2} of the shop"
    empty, opening, searching, shell_opening, shell_searching = least_milliseconds(
        [[program, "--help"], run("history", middle), run("pickup", "list", "--find", "owner 500"),
         *queries_by_shell(file, middle)])
    figures = [
        ("import, times the sqlite3 shell's", own / shell, 2.0, f"{own:.1f} s ({own_wall:.1f}) to {shell:.1f} s ({shell_wall:.1f})"),
        ("opening one pickup's history, ms", opening - empty, 5.0, f"less {empty:.1f} ms in which the program starts and ends"),
        ("search of all pickups, ms", searching - empty, 20.0, "likewise"),
        ("opening, times the sqlite3 shell's", opening / shell_opening, 2.0,
         f"whole processes: {opening:.1f} ms to {shell_opening:.1f} ms"),
        ("search, times the sqlite3 shell's", searching / shell_searching, 2.0,
         f"whole processes: {searching:.1f} ms to {shell_searching:.1f} ms"),
        ("the file's bytes a reading", file.stat().st_size / count, 120.0, f"{file.stat().st_size} bytes, all tables"),
    ]
    missed = False
    for title, value, limit, detail in figures:
        missed |= value > limit
        print(f"{title:36} {value:8.2f}  at most {limit:g}{'  MISSED' if value > limit else ''}  ({detail})")
    sys.exit(1 if missed else 0)


if __name__ == "__main__":
    main()
