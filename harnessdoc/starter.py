"""The starter file that `new` writes: small, commented, and checked by a test to be without findings."""

STARTER = """\
# A harness, described for harnessdoc. Check it with:  harnessdoc check
# Whatever you do not know yet is `unknown`: it goes on the list of things to find out.
format: 1
harness:
  title: My machine, work lamp
  number: MM-01            # on every sheet and label
  revision: A
  colour rule: red-black   # positive red, negative black; also: iec 60445, abyc e-11, iso 13297
  # records: https://records.example/mm-01   # where the record book will stand; labels then lead there

places:
  battery box: {zone: engine space}
  cab: {zone: cabin}
  mast: {zone: outside}

runs:   # the ways between places; they give wires their length
  - {between: [battery box, cab], length: 1.2 m, cover: split loom}
  - {between: [cab, mast], length: 2.4 m, cover: split loom, through: {hole: 20 mm, grommet: true}}

items:  # what wires land on; letters by IEC 81346-2: G source, F protection, S switch, K relay, M motor, E light
  G1: {is: battery, volts: 12.6 V, place: battery box}
  F1: {is: fuse, rating: 10 A, style: blade, place: battery box}
  S1: {is: switch, contacts: {"1-2": on}, rating: 20 A, place: cab, title: work lamp switch}
  E1: {is: lamp, watts: 55 W, at: 12 V, place: mast, title: work lamp}

wires:  # ITEM:TERMINAL at both ends; sizes as `2.5 mm2` or `14 AWG`, never plain `mm`
  W1: {from: "G1:+", to: F1:1, colour: red, size: 2.5 mm2, length: 150 mm, circuit: lamp, ends: [ring M8 blue, tab 6.3]}
  W2: {from: F1:2, to: S1:1, colour: red, size: 2.5 mm2, circuit: lamp, ends: [tab 6.3 blue, tab 6.3 blue]}
  W3: {from: S1:2, to: E1:1, colour: red/white, size: 2.5 mm2, circuit: lamp, ends: [tab 6.3 blue, ferrule 2.5]}
  W4: {from: E1:2, to: "G1:-", colour: black, size: 2.5 mm2, circuit: lamp, ends: [ferrule 2.5, ring M8 blue]}

circuits:
  lamp: {title: Work lamp, does: lights the ground behind the machine}

# A plug that is cut looks like this; take the # away from these lines, they check as they stand:
# plugs:
#   X4: {face: rect-2x2, view: wire side, place: cab, cut: {1: 2026-10-11}, empty: ["2", "3", "4"]}
# stubs:
#   X4:1: {colour: red/white, size: 2.5 mm2, length: 60 mm, from: W3, did: lamp drive, capped: true}
# and W3 then says where it was:  was at: X4:1
"""
