"""Facts about how an option holds and touches, and about the openings beside the seat it goes into."""

from recommender.facts.fact import Fact

STACK = "concentric rings (bearing, cup, shell), plane stress, with doubt of the moduli"
LAME = "thick-cylinder equations (Lame), handbook of machine design"
SHELL = "theory of plates and shells; own finite elements"
OPENINGS = "own finite elements of a ring with an opening, rigid part; notes on the rows in the limits"
LAID_UP = "know the wall and lay-up of the shell"

FACTS: tuple[Fact, ...] = (
    Fact(
        "opening.tension_factor", "side", "number", "factor of the openings on tension",
        "How many times the plain ring's hoop strain the tension beside the openings of the seat is.",
        "ligament over size, wall left, distance from the seat over the decay length", "inspection",
        "measure every opening: size, ligament, distance from the seat", "1", (0.0, 100.0), source=OPENINGS,
    ),
    Fact(
        "opening.compression_factor", "side", "number", "factor of the openings on compression",
        "How many times the plain ring's hoop strain the compression beside the openings of the seat is, as a size.",
        "ligament over size, wall left, distance from the seat over the decay length", "inspection",
        "measure every opening: size, ligament, distance from the seat", "1", (0.0, 100.0), source=OPENINGS,
    ),
    Fact(
        "opening.hold_left", "side", "number", "hold left beside the openings",
        "Share of the plain ring's mean pressure that the openings of the seat leave.",
        "wall left, distance from the seat over the decay length", "inspection",
        "measure every opening: size, wall left, distance from the seat", "1", (0.0, 1.0), source=OPENINGS,
    ),
    Fact(
        "grip.pressed_with", "side", "number", "pressure the last press force speaks of",
        "Mean contact pressure that the measured force of the last pressing speaks of, whatever the lubrication.",
        "force over friction and area of the seat", "papers", "ask who pressed the last part, and with what force",
        "MPa", (0.0, 500.0), source="Coulomb friction over the seat's area",
    ),
    Fact(
        "fit.long_term_pressure", "option", "number", "contact pressure after years",
        "Mean pressure at 20 C that openings leave and, in a polymer part, creep.",
        STACK + "; share left beside openings; long-term over short-term modulus of a polymer", "nothing_here",
        "only a load test of a sample shell would tell", "MPa", (-500.0, 500.0), source=LAME,
    ),
    Fact(
        "fit.contact", "option", "word", "contact round the seat",
        "Whether the part keeps contact at the long axis of an oval bore. Where that depends on how the frame holds "
        "the shell, it cannot be told from ovality alone.",
        "ovality over interference against a free ring and an endless wall", "nothing_here",
        "only marking paste on the pressed part would tell",
        words=("kept", "cannot_be_told", "lost"), source="plane elasticity, Airy stress function; own finite elements",
    ),
    Fact(
        "fit.touches_throughout", "option", "flag", "part touches along the whole seat",
        "The part is tight at the face and at the inner end of its seat.",
        "diameter of the part less the bore at both ends", "reading", "read the bore at more depths",
    ),
    Fact(
        "fit.contact_length", "option", "number", "length of contact",
        "Length of the seat the part really touches.", "share of the overlapping length", "reading",
        "read the bore at more depths", "mm", (0.0, 80.0), source=SHELL,
    ),
    Fact(
        "fit.rocking", "option", "number", "rocking of the part",
        "Angle through which a part held at one end of a tapered bore can swing; none where it is tight all along.",
        "gap at the loose end over the length of the seat", "reading", "read the bore at more depths", "arcmin",
        (0.0, 5400.0),
    ),
    Fact(
        "grip.axial", "option", "number", "axial force that moves the part",
        "Axial force the part holds after years by friction alone, at the least friction of the pair.",
        "friction, long-term pressure and area of the seat", "nothing_here",
        "only a load test of a sample shell would tell", "N", (0.0, 1e6),
        source="Coulomb friction over the seat's area",
    ),
    Fact(
        "grip.torque", "option", "number", "torque that turns the part",
        "Torque the part holds after years by friction alone, at the least friction of the pair; a bearing's drag is "
        "far smaller.", "friction, long-term pressure, area and radius of the seat", "nothing_here",
        "only a load test of a sample shell would tell", "Nm", (0.0, 1e5),
        source="Coulomb friction over the seat's area",
    ),
    Fact(
        "strain.compression", "option", "number", "hoop compression of the shell",
        "Largest compressive strain round the bore, as a size: beside an opening, and where ovality bends the wall.",
        STACK + "; thin-ring bending; opening factor", "rare_tool", LAID_UP, "um/m", (0.0, 50000.0), source=LAME,
    ),
    Fact(
        "strain.edge_compression", "option", "number", "compression at the part's inner edge",
        "Axial compression of the shell's bore just inboard of the part's sharp edge, as a size.",
        "hoop strain under the part times an edge factor", "rare_tool", LAID_UP, "um/m", (0.0, 50000.0), source=SHELL,
    ),
    Fact(
        "strain.behind_insert", "option", "number", "hoop strain of the laminate behind the insert",
        "Largest tensile strain of laminate round metal that is bonded into it: its share of the interference, ovality "
        "bending, times the factor of an opening beside the seat.",
        STACK + "; thin-ring bending; opening factor", "rare_tool", LAID_UP, "um/m", (-20000.0, 50000.0), source=LAME,
    ),
    Fact(
        "grip.allowed_most", "side", "number", "most interference the last pressing allows",
        "Largest interference with the last part that agrees with the force it was pressed in with; where it went in "
        "without resistance, with a force nobody notices. Friction, stiffness and whether a bearing was in are not "
        "known.", "force over friction, area and stiffness of the stack", "papers",
        "ask who pressed the last part, and with what force", "um", (0.0, 5000.0),
        source="Coulomb friction over the seat's area; " + LAME,
    ),
    Fact(
        "grip.allowed_least", "side", "number", "least interference the last pressing speaks of",
        "Smallest interference with the last part that agrees with the measured force it was pressed in with.",
        "force over friction, area and stiffness of the stack", "papers",
        "ask who pressed the last part, and with what force", "um", (0.0, 5000.0),
        source="Coulomb friction over the seat's area; " + LAME,
    ),
    Fact(
        "grip.sizes_over_force", "side", "number", "sizes tighter than the last pressing allows",
        "Interference of the tightest cup taken out with this bore, less the most that its pressing allows.",
        "difference of interferences", "papers", "ask who pressed the last part, and with what force", "um",
        (-5000.0, 5000.0), source="definition",
    ),
    Fact(
        "grip.force_over_sizes", "side", "number", "last pressing tighter than the sizes say",
        "Least interference that the last pressing speaks of, less that of the tightest cup taken out with this bore.",
        "difference of interferences", "papers", "ask who pressed the last part, and with what force", "um",
        (-5000.0, 5000.0), source="definition",
    ),
    Fact(
        "bearing.class", "option", "word", "clearance class to order",
        "The class in hand where it is stated, else the clearance class sold whose clearance left lies nearest to what "
        "is wanted between the ends of the riding range.",
        "clearance as sold less closure of the raceway, seat in the cup, ovality and temperature", "nothing_here",
        "only the pressed bearing tells: spin it by hand", words=("C2", "CN", "C3", "C4", "C5"),
        source="general bearing catalogue, section 8.2.2; ISO 5753-1",
    ),
    Fact(
        "bearing.class_clearance_left", "option", "number", "clearance left in the class to order",
        "Radial clearance left after pressing in the clearance class to order, between the ends of the riding range.",
        "clearance as sold less closure of the raceway, seat in the cup, ovality and temperature", "nothing_here",
        "only the pressed bearing tells: spin it by hand", "um", (-500.0, 200.0),
        source="general bearing catalogue, section 8.2.2; ISO 5753-1",
    ),
    Fact(
        "bond.shear_reserve", "option", "number", "shear reserve of the bond",
        "Axial strength of the glued sleeve over the axial force riding asks of it.",
        "design strength over the glued area, over the axial force", "part",
        "choose another adhesive or a longer sleeve", "1", (0.0, 10000.0), source="shear over the glued area",
    ),
    Fact(
        "bond.peel_in_cold", "option", "number", "pull on the bond in the cold",
        "Radial pull on the bond line of the sleeve at the cold end of the riding range.",
        "sleeve and shell put together without interference at 20 C, then cooled", "nothing_here",
        "only a bonded sample in the cold would tell", "MPa", (0.0, 500.0), source=LAME,
    ),
)  # fmt: skip
