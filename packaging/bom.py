#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Writes the bill of materials of a built program as SPDX 2.3 JSON (ISO/IEC 5962).

What is linked is read from the program, versions from dpkg, licences from linked.tsv. A library that
the program needs and the table does not name is an error: nobody may pass on what nobody looked at.
Usage: bom.py PROGRAM VERSION ARCHITECTURE OUT
"""
import datetime
import json
import os
import pathlib
import re
import subprocess
import sys

HERE = pathlib.Path(__file__).parent
TRIPLET = {"amd64": "x86_64-linux-gnu", "arm64": "aarch64-linux-gnu"}
HOW = {"static": "STATIC_LINK", "dynamic": "DYNAMIC_LINK", "loaded": "RUNTIME_DEPENDENCY_OF"}


def run(*words):
    return subprocess.run(words, check=True, text=True, stdout=subprocess.PIPE).stdout


def table():
    rows = {}
    for line in (HERE / "linked.tsv").read_text().splitlines():
        if line and not line.startswith("#"):
            package, how, licence, what = line.split("\t")
            rows[package] = (how, licence, what)
    return rows


def needed(program):
    return re.findall(r"NEEDED\s+(\S+)", run("objdump", "-p", program))


def package_of(library, architecture):
    for line in run("dpkg-query", "--search", f"*/{TRIPLET[architecture]}/{library}").splitlines():
        return line.partition(":")[0]
    sys.exit(f"bom: no package of {architecture} has {library}")


def version_of(package, architecture):
    for name in (f"{package}:{architecture}", package):
        found = subprocess.run(("dpkg-query", "--show", "--showformat", "${Version}", name),
                               text=True, capture_output=True)
        if found.returncode == 0 and found.stdout:
            return found.stdout
    return None  # only needed where it runs


def entry(name, version, licence, what, architecture=None):
    package = {
        "SPDXID": "SPDXRef-" + re.sub(r"[^A-Za-z0-9.-]", "-", name),
        "name": name,
        "downloadLocation": "NOASSERTION",
        "filesAnalyzed": False,
        "licenseConcluded": "NOASSERTION",
        "licenseDeclared": licence,
        "copyrightText": "NOASSERTION",
        "comment": what,
    }
    if version:
        package["versionInfo"] = version
    if architecture:
        at = "@" + version.replace("+", "%2B").replace(":", "%3A") if version else ""
        package["externalRefs"] = [{
            "referenceCategory": "PACKAGE-MANAGER",
            "referenceType": "purl",
            "referenceLocator": f"pkg:deb/debian/{name.replace('+', '%2B')}{at}?arch={architecture}",
        }]
    return package


def related(how, whole, part):
    if how == "loaded":
        return {"spdxElementId": part, "relationshipType": HOW[how], "relatedSpdxElement": whole}
    return {"spdxElementId": whole, "relationshipType": HOW[how], "relatedSpdxElement": part}


def bill(program, version, architecture):
    rows = table()
    linked = {package_of(library, architecture): library for library in needed(program)
              if not library.startswith("ld-linux")}
    for package, library in linked.items():
        if package not in rows:
            sys.exit(f"bom: {library} of {package} is linked, but not in packaging/linked.tsv")
    whole = entry("duskwalk", version, "MIT", "the program")
    packages, relations = [whole], []
    for package, (how, licence, what) in sorted(rows.items()):
        if how == "dynamic" and package not in linked:
            continue
        part = entry(package, version_of(package, architecture), licence, what, architecture)
        packages.append(part)
        relations.append(related(how, whole["SPDXID"], part["SPDXID"]))
    epoch = int(os.environ.get("SOURCE_DATE_EPOCH", "0"))
    made = datetime.datetime.fromtimestamp(epoch, datetime.timezone.utc)
    name = f"duskwalk-{version}-{architecture}"
    return {
        "spdxVersion": "SPDX-2.3",
        "dataLicense": "CC0-1.0",
        "SPDXID": "SPDXRef-DOCUMENT",
        "name": name,
        "documentNamespace": f"https://duskwalk.example/spdx/{name}",
        "creationInfo": {"created": made.strftime("%Y-%m-%dT%H:%M:%SZ"),
                         "creators": ["Tool: duskwalk-bom"]},
        "documentDescribes": [whole["SPDXID"]],
        "hasExtractedLicensingInfos": [{"licenseId": "LicenseRef-public-domain",
                                        "extractedText": "Placed in the public domain."}],
        "packages": packages,
        "relationships": relations,
    }


def main():
    program, version, architecture, out = sys.argv[1:]
    text = json.dumps(bill(program, version, architecture), indent=1, sort_keys=True)
    pathlib.Path(out).write_text(text + "\n")


if __name__ == "__main__":
    main()
