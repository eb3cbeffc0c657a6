class About:
    def __init__(self, figures: Mapping[str, Figure] | None = None) -> None: ...
    def items(self) -> ItemsView[str, Figure]: ...
    @classmethod
    def told(cls, told: dict[str, Figure | Reading | Told], origin: Origin) -> Self: ...
    ...
class Adjuster:
    def __init__(self, *, about: About = ..., id: Any, title: Any, numbers: Any = (), replaces: Any = (), paint: Any = '', remarks: Any = (), replaced_by: Any = (), pack_version: Any = '', mounting: Any, lever_lies: Any, thread_diameter: Any, thread_pitch: Any, thread_start: Any, thread_end: Any, property_class: Any = None, nut_height: Any = None, spacer: Any = '0 mm') -> None: ...
    about: About
    id: str
    title: str
    numbers: tuple[PartNumber, ...]
    replaces: tuple[str, ...]
    paint: str
    remarks: tuple[str, ...]
    replaced_by: tuple[str, ...]
    pack_version: str
    mounting: SwivellingMounting | FixedLineMounting | KeyBoltMounting
    lever_lies: LeverSide
    thread_diameter: Quantity
    thread_pitch: Quantity
    thread_start: Quantity
    thread_end: Quantity
    property_class: PropertyClass | None
    nut_height: Quantity | None
    spacer: Quantity
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    @property
    def is_screwed(self) -> bool: ...
    @property
    def ordered_by(self) -> str: ...
    ...
Anchor: UnionType
class Arm:
    def __init__(self, *, about: About = ..., id: Any, title: Any, numbers: Any = (), replaces: Any = (), paint: Any = '', remarks: Any = (), replaced_by: Any = (), pack_version: Any = '', radius: Any, socket: Any, made_for: Any = None) -> None: ...
    about: About
    id: str
    title: str
    numbers: tuple[PartNumber, ...]
    replaces: tuple[str, ...]
    paint: str
    remarks: tuple[str, ...]
    replaced_by: tuple[str, ...]
    pack_version: str
    radius: Quantity
    socket: Socket
    made_for: Side | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    @property
    def ordered_by(self) -> str: ...
    ...
class ArmBushing:
    def __init__(self, *, about: About = ..., rate: Any, set_angle: Any = None) -> None: ...
    about: About
    rate: Quantity
    set_angle: Quantity | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class Axle:
    def __init__(self, *, about: About = ..., place: Any, bar_axis: Any, arm_direction: Any, arm_axis: Any = None, entry: Any, suspension: Any, hub_outboard: Any, hub_up: Any, reference_angle: Any, load_at: Any, tyre_radius: Any, tyre_rate: Any, unsprung_mass: Any, standard_mass: Any, standard_height: Any, measured_height: Any, measured_angle: Any, droop_stop: Any, bump_stop: Any, tube_position: Any, bolt_position: Any = None, cap_holes_position: Any = None, lever_allowance: Any = None, cap_allowance: Any = None, space_behind: Any, arm_stop: Any = None, anchor_stop: Any = None, bump_rubber: Any = None, bushing: Any = None, helper_coil: Any = None, left: Any, right: Any = None) -> None: ...
    about: About
    place: AxlePlace
    bar_axis: Vector
    arm_direction: Vector
    arm_axis: Vector | None
    entry: BarEndName
    suspension: StrutMounting | SwingArmMounting | DoubleWishboneMounting
    hub_outboard: Quantity
    hub_up: Quantity
    reference_angle: Quantity
    load_at: LoadPoint
    tyre_radius: Quantity
    tyre_rate: Quantity
    unsprung_mass: Quantity
    standard_mass: Quantity
    standard_height: Quantity
    measured_height: Quantity
    measured_angle: Quantity
    droop_stop: Quantity
    bump_stop: Quantity
    tube_position: Quantity
    bolt_position: Quantity | None
    cap_holes_position: Quantity | None
    lever_allowance: Quantity | None
    cap_allowance: Quantity | None
    space_behind: Quantity
    arm_stop: Quantity | None
    anchor_stop: Quantity | None
    bump_rubber: BumpRubber | None
    bushing: ArmBushing | None
    helper_coil: HelperCoil | None
    left: StandardParts
    right: StandardParts | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    def refuse_without_place(self, anchor: Anchor) -> None: ...
    def standard(self, side: Side) -> StandardParts: ...
    ...
class AxleAntiRollBar:
    def __init__(self, *, about: About = ..., one_wheel_rate: Any = None, both_wheels_rate: Any = None, roll_rate: Any = None, diameter: Any = None, length: Any = None, lever_length: Any = None, link_distance: Any = None, wheel_distance: Any = None, shear_modulus: Any = None) -> None: ...
    about: About
    one_wheel_rate: Quantity | None
    both_wheels_rate: Quantity | None
    roll_rate: Quantity | None
    diameter: Quantity | None
    length: Quantity | None
    lever_length: Quantity | None
    link_distance: Quantity | None
    wheel_distance: Quantity | None
    shear_modulus: Quantity | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class AxlePlace:
    FRONT = 'front'
    REAR = 'rear'
class Bar:
    def __init__(self, *, about: About = ..., id: Any, title: Any, numbers: Any = (), replaces: Any = (), paint: Any = '', remarks: Any = (), replaced_by: Any = (), pack_version: Any = '', material: Any, diameter: Any, bore: Any = None, length: Any, arm_end: Any, anchor_end: Any, blank_angle: Any = ..., made_for: Any = None, preset: Any = False, preset_twist: Any = None, measured_rate: Any = None) -> None: ...
    about: About
    id: str
    title: str
    numbers: tuple[PartNumber, ...]
    replaces: tuple[str, ...]
    paint: str
    remarks: tuple[str, ...]
    replaced_by: tuple[str, ...]
    pack_version: str
    material: Material
    diameter: Quantity
    bore: Quantity | None
    length: Quantity
    arm_end: BarEnd
    anchor_end: BarEnd
    blank_angle: Quantity
    made_for: Side | None
    preset: bool
    preset_twist: Quantity | None
    measured_rate: Quantity | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    @property
    def ordered_by(self) -> str: ...
    ...
class BarEnd:
    def __init__(self, *, about: About = ..., teeth: Any, form: Any, length: Any, major_diameter: Any, root_diameter: Any, taper: Any, fillet_radius: Any = None, nose: Any = '0 mm', nose_diameter: Any = None, blanks: Any = (0,), mark: Any = None) -> None: ...
    about: About
    teeth: int
    form: str
    length: Quantity
    major_diameter: Quantity
    root_diameter: Quantity
    taper: Quantity
    fillet_radius: Quantity | None
    nose: Quantity
    nose_diameter: Quantity | None
    blanks: tuple[int, ...]
    mark: str | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    @property
    def has_makers_blank(self) -> bool: ...
    @property
    def shows_its_count(self) -> bool: ...
    ...
class BarEndName:
    ARM = 'arm end'
    ANCHOR = 'anchor end'
class BumpRubber:
    def __init__(self, *, about: About = ..., curve: Any, contact_length: Any = None, contact_height: Any = None, contact_angle: Any = None, contact_radius: Any = None) -> None: ...
    about: About
    curve: tuple[BumpRubberForce, ...]
    contact_length: Quantity | None
    contact_height: Quantity | None
    contact_angle: Quantity | None
    contact_radius: Quantity | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class BumpRubberForce:
    def __init__(self, *, about: About = ..., compression: Any, force: Any) -> None: ...
    about: About
    compression: Quantity
    force: Quantity
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class Chassis:
    def __init__(self, *, about: About = ..., id: Any, title: Any, numbers: Any = (), replaces: Any = (), paint: Any = '', remarks: Any = (), replaced_by: Any = (), pack_version: Any = '', maker: Any = None, model: Any = None, body: Any = None, trim: Any = None, drive: Any = None, markets: Any = (), codes: Any = (), first_built: Any = None, last_built: Any = None, wheelbase: Any, axles: Any, right_side: Any = None) -> None: ...
    about: About
    id: str
    title: str
    numbers: tuple[PartNumber, ...]
    replaces: tuple[str, ...]
    paint: str
    remarks: tuple[str, ...]
    replaced_by: tuple[str, ...]
    pack_version: str
    maker: str | None
    model: str | None
    body: str | None
    trim: str | None
    drive: str | None
    markets: tuple[str, ...]
    codes: tuple[str, ...]
    first_built: Month | None
    last_built: Month | None
    wheelbase: Quantity
    axles: tuple[Axle, ...]
    right_side: Chassis | None
    def corner(self, axle: Axle, side: Side) -> tuple[Chassis, Axle]: ...
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    @property
    def ordered_by(self) -> str: ...
    def refuse_other_axle(self, axle: Axle) -> None: ...
    ...
class Claim:
    def __init__(self, *, pack: str, parts: tuple[str, ...], on: tuple[str, ...], axle: AxlePlace | None, side: Side | None, claimed: Claimed, source: str, at: str, file: str, key: str) -> None: ...
    pack: str
    parts: tuple[str, ...]
    on: tuple[str, ...]
    axle: AxlePlace | None
    side: Side | None
    claimed: Claimed
    source: str
    at: str
    file: str
    key: str
    ...
class Claimed:
    FITS = 'fits'
    FITS_WITH_CHANGES = 'fits with changes'
class ContactSide:
    BUMPWARD = 'bumpward'
    DROOPWARD = 'droopward'
class Damper:
    def __init__(self, *, about: About = ..., id: Any, title: Any, numbers: Any = (), replaces: Any = (), paint: Any = '', remarks: Any = (), replaced_by: Any = (), pack_version: Any = '', open_length: Any, closed_length: Any, gas: Any = None, damping_rate: Any = None) -> None: ...
    about: About
    id: str
    title: str
    numbers: tuple[PartNumber, ...]
    replaces: tuple[str, ...]
    paint: str
    remarks: tuple[str, ...]
    replaced_by: tuple[str, ...]
    pack_version: str
    open_length: Quantity
    closed_length: Quantity
    gas: GasCharge | None
    damping_rate: Quantity | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    @property
    def ordered_by(self) -> str: ...
    ...
class DoubleWishboneMounting:
    def __init__(self, *, about: About = ..., upper_outboard: Any, upper_up: Any, upper_radius: Any, upright: Any, upper_joint: Any = ..., mount_outboard: Any, mount_up: Any, foot_along: Any, foot_above: Any = '0 mm') -> None: ...
    about: About
    upper_outboard: Quantity
    upper_up: Quantity
    upper_radius: Quantity
    upright: Quantity
    upper_joint: JointSide
    mount_outboard: Quantity
    mount_up: Quantity
    foot_along: Quantity
    foot_above: Quantity
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class Extreme:
    LOWEST_STRESS = 'lowest stress'
    LARGEST_BAR = 'largest bar'
class Fact:
    def __init__(self, *, tolerance: Quantity | None = None, written: str = '', source: str = 'caller', source_kind: SourceKind | None = None, at: str = '', file: str = '', key: str = '', replaces: Figure | None = None, why: str = '', value: Any) -> None: ...
    tolerance: Quantity | None
    written: str
    source: str
    source_kind: SourceKind | None
    at: str
    file: str
    key: str
    replaces: Figure | None
    why: str
    value: Any
    ...
class Figure:
    def __init__(self, *, value: Quantity, tolerance: Quantity | None = None, written: str = '', source: str = 'caller', source_kind: SourceKind | None = None, at: str = '', file: str = '', key: str = '', replaces: Figure | None = None, why: str = '') -> None: ...
    value: Quantity
    tolerance: Quantity | None
    written: str
    source: str
    source_kind: SourceKind | None
    at: str
    file: str
    key: str
    replaces: Figure | None
    why: str
    ...
class FixedLineMounting:
    def __init__(self, *, about: About = ..., line_distance: Any, foot_angle: Any, foot_position: Any) -> None: ...
    about: About
    line_distance: Quantity
    foot_angle: Quantity
    foot_position: Quantity
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class FixedSocket:
    def __init__(self, *, about: About = ..., id: Any, title: Any, numbers: Any = (), replaces: Any = (), paint: Any = '', remarks: Any = (), replaced_by: Any = (), pack_version: Any = '', anchor_angle: Any, socket_position: Any = '0 mm', socket: Any, made_for: Any = None) -> None: ...
    about: About
    id: str
    title: str
    numbers: tuple[PartNumber, ...]
    replaces: tuple[str, ...]
    paint: str
    remarks: tuple[str, ...]
    replaced_by: tuple[str, ...]
    pack_version: str
    anchor_angle: Quantity
    socket_position: Quantity
    socket: Socket
    made_for: Side | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    @property
    def ordered_by(self) -> str: ...
    ...
class GasCharge:
    def __init__(self, *, about: About = ..., force: Any, at_length: Any, slope: Any = '0 N/mm') -> None: ...
    about: About
    force: Quantity
    at_length: Quantity
    slope: Quantity
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class HelperCoil:
    def __init__(self, *, about: About = ..., rate: Any, free_length: Any, seat_offset: Any = '0 mm') -> None: ...
    about: About
    rate: Quantity
    free_length: Quantity
    seat_offset: Quantity
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class JointSide:
    OUTBOARD = 'outboard'
    INBOARD = 'inboard'
class KeyBoltMounting:
    def __init__(self, *, about: About = ..., line_distance: Any, foot_angle: Any, foot_position: Any, end_radius: Any, stretch: Any = ...) -> None: ...
    about: About
    line_distance: Quantity
    foot_angle: Quantity
    foot_position: Quantity
    end_radius: Quantity
    stretch: ContactSide
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class KeyLever:
    def __init__(self, *, about: About = ..., id: Any, title: Any, numbers: Any = (), replaces: Any = (), paint: Any = '', remarks: Any = (), replaced_by: Any = (), pack_version: Any = '', lever_position: Any = '0 mm', face_offset: Any, face_start: Any, face_end: Any, socket_position: Any = '0 mm', socket: Any, held_by: Any = None, made_for: Any = None) -> None: ...
    about: About
    id: str
    title: str
    numbers: tuple[PartNumber, ...]
    replaces: tuple[str, ...]
    paint: str
    remarks: tuple[str, ...]
    replaced_by: tuple[str, ...]
    pack_version: str
    lever_position: Quantity
    face_offset: Quantity
    face_start: Quantity
    face_end: Quantity
    socket_position: Quantity
    socket: Socket
    held_by: str | None
    made_for: Side | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    @property
    def ordered_by(self) -> str: ...
    ...
class LeverSide:
    BUMPWARD = 'bumpward'
    DROOPWARD = 'droopward'
class Load:
    def __init__(self, *, about: About = ..., kind: Any, mass: Any) -> None: ...
    about: About
    kind: LoadKind
    mass: Quantity
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class LoadKind:
    SCALE_READING = 'scale reading'
    SPRUNG = 'sprung mass'
class LoadPoint:
    CONTACT = 'tyre contact'
    HUB = 'hub'
class Material:
    def __init__(self, *, about: About = ..., id: Any, title: Any, numbers: Any = (), replaces: Any = (), paint: Any = '', remarks: Any = (), replaced_by: Any = (), pack_version: Any = '', shear_modulus: Any, youngs_modulus: Any = None, density: Any = None, tensile_strength: Any = None, proof_strength: Any = None, permissible_shear: Any = None, preset_permissible_shear: Any = None) -> None: ...
    about: About
    id: str
    title: str
    numbers: tuple[PartNumber, ...]
    replaces: tuple[str, ...]
    paint: str
    remarks: tuple[str, ...]
    replaced_by: tuple[str, ...]
    pack_version: str
    shear_modulus: Quantity
    youngs_modulus: Quantity | None
    density: Quantity | None
    tensile_strength: Quantity | None
    proof_strength: Quantity | None
    permissible_shear: Quantity | None
    preset_permissible_shear: Quantity | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    @property
    def ordered_by(self) -> str: ...
    ...
class MeasuredBar:
    def __init__(self, *, diameter: Any = None, bore: Any = None, length: Any = None, ends: Any = (), blank_angle: Any = None) -> None: ...
    diameter: Figure | None
    bore: Figure | None
    length: Figure | None
    ends: tuple[MeasuredEnd, ...]
    blank_angle: Figure | None
    ...
class MeasuredEnd:
    def __init__(self, *, teeth: Any = None, blanks: Any = None, major_diameter: Any = None, root_diameter: Any = None, length: Any = None, taper: Any = None, nose: Any = None) -> None: ...
    teeth: int | None
    blanks: tuple[int, ...] | None
    major_diameter: Figure | None
    root_diameter: Figure | None
    length: Figure | None
    taper: Figure | None
    nose: Figure | None
    ...
class MeasuredSpline:
    def __init__(self, *, teeth: Any, major_diameter: Any = None, root_diameter: Any = None, over_pins: Any = None, pin_diameter: Any = None) -> None: ...
    teeth: int
    major_diameter: Figure | None
    root_diameter: Figure | None
    over_pins: Figure | None
    pin_diameter: Figure | None
    ...
class Month:
    def __init__(self, year: Any, month: Any) -> None: ...
    year: int
    month: int
    @property
    def number(self) -> int: ...
    @classmethod
    def of(cls, text: str) -> Self: ...
    ...
class Part:
    def __init__(self, *, about: About = ..., id: str, title: str, numbers: tuple[PartNumber, ...] = (), replaces: tuple[str, ...] = (), paint: str = '', remarks: tuple[str, ...] = (), replaced_by: tuple[str, ...] = (), pack_version: str = '') -> None: ...
    about: About
    id: str
    title: str
    numbers: tuple[PartNumber, ...]
    replaces: tuple[str, ...]
    paint: str
    remarks: tuple[str, ...]
    replaced_by: tuple[str, ...]
    pack_version: str
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    @property
    def ordered_by(self) -> str: ...
    ...
class PartNumber:
    def __init__(self, number_system: Any, number: Any) -> None: ...
    number_system: str
    number: str
    ...
class PropertyClass:
    CLASS_8_8 = '8.8'
    CLASS_10_9 = '10.9'
class Reading:
    def __init__(self, *, about: About = ..., setup: Any, height: Any = None, arm_angle: Any = None, nut_turns: Any = None, pin_distance: Any = None) -> None: ...
    about: About
    setup: Setup
    height: Quantity | None
    arm_angle: Quantity | None
    nut_turns: Quantity | None
    pin_distance: Quantity | None
    @property
    def corner(self) -> Setup: ...
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class Side:
    LEFT = 'left'
    RIGHT = 'right'
class Socket:
    def __init__(self, *, about: About = ..., teeth: Any, form: Any, length: Any, minor_diameter: Any, required_engagement: Any, key_angle: Any, keyed: Any = True) -> None: ...
    about: About
    teeth: int
    form: str
    length: Quantity
    minor_diameter: Quantity
    required_engagement: Quantity
    key_angle: Quantity
    keyed: bool
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class Source:
    def __init__(self, *, id: str, kind: SourceKind, note: str) -> None: ...
    id: str
    kind: SourceKind
    note: str
    ...
class SourceKind:
    MEASURED = 'measured'
    PUBLISHED = 'published'
    MAKER = 'maker'
    INVENTED = 'invented'
    RECALLED = 'recalled'
    ESTIMATED = 'estimated'
class StandardParts:
    def __init__(self, *, arm: Arm, bar: Bar, anchor: Anchor, adjuster: Adjuster | None = None, damper: Damper) -> None: ...
    arm: Arm
    bar: Bar
    anchor: Anchor
    adjuster: Adjuster | None
    damper: Damper
    ...
class StrutMounting:
    def __init__(self, *, about: About = ..., top_outboard: Any, top_up: Any, offset: Any = '0 mm', length_below: Any = '0 mm') -> None: ...
    about: About
    top_outboard: Quantity
    top_up: Quantity
    offset: Quantity
    length_below: Quantity
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class SwingArmMounting:
    def __init__(self, *, about: About = ..., mount_outboard: Any, mount_up: Any, foot_along: Any, foot_above: Any = '0 mm') -> None: ...
    about: About
    mount_outboard: Quantity
    mount_up: Quantity
    foot_along: Quantity
    foot_above: Quantity
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class SwivellingMounting:
    def __init__(self, *, about: About = ..., pivot_distance: Any, pivot_angle: Any) -> None: ...
    about: About
    pivot_distance: Quantity
    pivot_angle: Quantity
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class Tube:
    def __init__(self, *, about: About = ..., id: Any, title: Any, numbers: Any = (), replaces: Any = (), paint: Any = '', remarks: Any = (), replaced_by: Any = (), pack_version: Any = '', material: Any, outside_diameter: Any, bore: Any, lever_position: Any, lever_radius: Any, cap_position: Any, socket_position: Any, socket: Any, made_for: Any = None) -> None: ...
    about: About
    id: str
    title: str
    numbers: tuple[PartNumber, ...]
    replaces: tuple[str, ...]
    paint: str
    remarks: tuple[str, ...]
    replaced_by: tuple[str, ...]
    pack_version: str
    material: Material
    outside_diameter: Quantity
    bore: Quantity
    lever_position: Quantity
    lever_radius: Quantity
    cap_position: Quantity
    socket_position: Quantity
    socket: Socket
    made_for: Side | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    @property
    def ordered_by(self) -> str: ...
    ...
class WeighedAxle:
    def __init__(self, *, about: About = ..., track: Any = None, scale_reading: Any = None, wanted_height: Any = None, wheel_rate: Any = None, tyre_rate: Any = None, unsprung_mass: Any = None, anti_roll_bar: Any = None, roll_centre: Any = None, left: Any = ..., right: Any = ...) -> None: ...
    about: About
    track: Quantity | None
    scale_reading: Quantity | None
    wanted_height: Quantity | None
    wheel_rate: Quantity | None
    tyre_rate: Quantity | None
    unsprung_mass: Quantity | None
    anti_roll_bar: AxleAntiRollBar | None
    roll_centre: Quantity | None
    left: WeighedWheel
    right: WeighedWheel
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class WeighedWheel:
    def __init__(self, *, about: About = ..., scale_reading: Any = None, height: Any = None, nut_turns: Any = None, pin_distance: Any = None) -> None: ...
    about: About
    scale_reading: Quantity | None
    height: Quantity | None
    nut_turns: Quantity | None
    pin_distance: Quantity | None
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
class WholeVehicle:
    def __init__(self, *, about: About = ..., total: Any = None, wanted_cross_weight: Any = None, centre_of_gravity_height: Any = None, roll_radius: Any = None, pitch_radius: Any = None, front: Any = ..., rear: Any = ...) -> None: ...
    about: About
    total: Quantity | None
    wanted_cross_weight: float | None
    centre_of_gravity_height: Quantity | None
    roll_radius: Quantity | None
    pitch_radius: Quantity | None
    front: WeighedAxle
    rear: WeighedAxle
    def described(self, known: Mapping[str, Figure]) -> Self: ...
    ...
def is_unknown(value: object) -> bool: ...
def measured(setup: Setup, *, height: FigureLike | None = None, arm_angle: FigureLike | None = None, scale_reading: FigureLike | None = None, sprung_mass: FigureLike | None = None, nut_turns: FigureLike | None = None, pin_distance: FigureLike | None = None) -> Reading: ...
