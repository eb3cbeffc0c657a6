class AdjusterDatum:
    PIVOT = "bolt's pivot"
    HEAD = "bolt's head"
    CROSS_MEMBER = 'cross-member'
class AdjusterView:
    corner: str
    turned_part: TurnedPart
    datum: AdjusterDatum
    thread_diameter: Quantity
    thread_pitch: Quantity
    thread_start: Quantity
    thread_end: Quantity
    nut_start: Quantity | None
    nut_height: Quantity | None
    pin_distance: Quantity
    turns_left_clockwise: Quantity
    turns_left_counter_clockwise: Quantity
    clockwise_is_inward: bool
    raising_sense: TurningSense
    height_per_turn: Quantity
    ...
class Answer:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class Assembly:
    damper_fitted: bool
    turned: TurnedPart | None
    slides: bool
    nut_turns: Quantity | None
    pin_distance: Quantity | None
    arm_angle: Quantity
    anywhere: bool
    unloading_reserve: Quantity
    unloading_reserve_uncertainty: Quantity
    lift: Quantity
    residual_torque: Quantity
    residual_energy: Quantity
    @property
    def is_sure(self) -> bool: ...
    ...
class AssumedError:
    tool: str
    within: Quantity
    named_figures: tuple[str, ...]
    ...
class AxialHead:
    fit: EndFit
    spline_from: Quantity
    spline_to: Quantity
    socket_from: Quantity
    socket_to: Quantity
    nose: Quantity
    taper: Quantity
    major_diameter: Quantity
    ...
class Balance:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    scales: tuple[WheelOnScale, ...]
    total: Quantity | None
    cross_weight: float | None
    cross_uncertainty: float | None
    front_share: float | None
    left_share: float | None
    settings: tuple[NutSettings, ...]
    ride_and_roll: RideAndRoll | None
    close_enough: Quantity | None
    not_chased: Quantity | None
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    @property
    def preferred(self) -> NutSettings: ...
    def refused(self) -> str: ...
    ...
class BalanceAim:
    HEIGHTS = 'heights'
    CROSS_WEIGHT = 'cross weight'
    BOTH = 'heights and cross weight'
class BarAxisView:
    corner: str
    axial_heads: tuple[AxialHead, ...]
    length: Quantity
    diameter: Quantity
    lever_place: Quantity | None
    lever_offset: Quantity | None
    tube_from: Quantity | None
    tube_diameter: Quantity | None
    cap_place: Quantity | None
    cap_offset: Quantity | None
    ...
class BarEndView:
    corner: str
    work: EndWork
    teeth: int
    missing_teeth: tuple[int, ...]
    key_before: int | None
    keyed: bool
    major_diameter: Quantity
    root_diameter: Quantity
    nose: Quantity
    nose_diameter: Quantity | None
    ...
class BarOption:
    bar_id: str
    bar_title: str
    arm_id: str
    anchor_id: str
    damper_id: str
    swapped: tuple[str, ...]
    swapped_titles: tuple[str, ...]
    changes: tuple[str, ...]
    wheel_rate: Quantity
    rate_change: float
    ride_frequency: Quantity | None
    miss: float
    bump_stress: Quantity
    limit: StressLimit
    factor: float
    damper_rate: Quantity | None
    bump_left: Quantity
    plan: Plan
    @property
    def named(self) -> str: ...
    ...
class BarRate:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    bar_id: str
    tube_id: str | None
    bar_rate: Quantity
    bar_rate_uncertainty: Quantity | None
    tube_rate: Quantity | None
    system_rate: Quantity
    system_rate_uncertainty: Quantity | None
    shear_modulus: Quantity
    shear_modulus_tolerance: Quantity | None
    active_length: Quantity
    mass: Quantity | None
    clocking_step: Quantity
    torque: Quantity
    twist: Quantity
    twist_uncertainty: Quantity | None
    shear_stress: Quantity
    permissible_shear: StressLimit | None
    permissible_torque: Quantity | None
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class Batch:
    asked: str
    verdicts: NDArray[np.str_]
    error_codes: NDArray[np.str_]
    error_texts: Mapping[int, str]
    columns: Mapping[str, Any]
    ...
class BatchFile:
    file: str
    row_count: int
    errors: int
    pieces: int
    earlier: int
    ...
class BatchSummary:
    asked: str
    verdict_counts: Mapping[Verdict, int]
    error_counts: Mapping[str, int]
    first_errors: tuple[RowError, ...]
    @property
    def errors(self) -> int: ...
    @property
    def exit_code(self) -> ExitCode: ...
    @property
    def headline(self) -> str: ...
    ...
class BenchSheet:
    title: str
    vehicle: str
    vehicle_id: str
    headlines: tuple[str, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    parts: tuple[SheetRow, ...]
    figures: tuple[SheetRow, ...]
    stages: tuple[SheetStage, ...]
    measurements: tuple[SheetMeasurement, ...]
    corners: tuple[CornerSheet, ...]
    sources: tuple[str, ...]
    packs: tuple[str, ...]
    order: WorkOrder
    @property
    def headline(self) -> str: ...
    @property
    def outcome(self) -> Outcome: ...
    @property
    def outcomes(self) -> tuple[Outcome, ...]: ...
    @property
    def planned(self) -> tuple[str, ...]: ...
    @property
    def steps(self) -> tuple[SheetStep, ...]: ...
    @property
    def vehicle_with_packs(self) -> str: ...
    ...
class BlankTooth:
    MAKERS = "the maker's blank"
    EARLIER = 'the blank cut earlier'
    NEW = 'the new blank'
    NONE = 'none'
class BoltDatum:
    PIVOT = "bolt's pivot"
    HEAD = "bolt's head"
    CROSS_MEMBER = 'cross-member'
class BoltLoad:
    at_ride: Quantity
    at_bump: Quantity
    stress_at_bump: Quantity
    side_thrust_at_bump: Quantity | None
    proof_load: Quantity | None
    proof_share: float | None
    ...
class CalibratedCorner:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    system_rate: Quantity | None
    system_rate_standard_error: Quantity | None
    system_rate_uncertainty: Quantity | None
    expected_system_rate: Quantity | None
    bar_rate: Quantity | None
    bar_rate_uncertainty: Quantity | None
    shear_modulus: Quantity | None
    free_angle: Quantity | None
    free_angle_standard_error: Quantity | None
    free_angle_uncertainty: Quantity | None
    degrees_of_freedom: int | None
    coverage_factor: float | None
    readings: tuple[CalibratedReading, ...]
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def gives_no_spring(self) -> bool: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class CalibratedReading:
    sprung_mass: Quantity
    nut_turns: Quantity
    height: Quantity
    arm_angle: Quantity
    torque: Quantity
    residual_height: Quantity | None
    ...
class Cause:
    kind: CauseKind
    corner: str
    named: str
    probability: float
    height_change: Quantity
    plan: Plan | None
    @property
    def in_words(self) -> str: ...
    ...
class CauseKind:
    NOTHING = 'nothing: the tolerances of the figures explain it'
    READING = 'a wrong reading'
    LOAD = 'another load than stated'
    ARM_TOOTH = 'arm end on another tooth'
    ANCHOR_TOOTH = 'anchor end on another tooth'
    OTHER_BAR = 'another bar'
    SWAPPED_SIDES = 'left and right bar exchanged'
    SET = 'a bar that has taken a set'
    SPACER = 'spacer of the adjuster left out'
class Caution:
    STORED_ENERGY = 'stored energy'
    STANDS = 'stands'
    PROVE_LOOSE = 'prove loose'
    LIFT_UNTIL_LOOSE = 'lift until loose'
    SLACK_AT_DROOP = 'slack at droop'
    BRAKE_HOSE = 'brake hose'
    MARK_BOTH_SIDES = 'mark both sides'
    MARK_KEY_LEVER = 'mark key lever'
    MARK_SOCKET = 'mark socket'
    SCRAP_ON_NICKS = 'scrap on nicks'
    FEWER_TEETH = 'fewer teeth'
    GUIDE_MOUNT = 'guide mount'
    FULL_NUT = 'full nut'
    SPACER = 'spacer'
    FULL_BOLT = 'full bolt'
    CLEARANCE = 'clearance'
    AFTER_HEIGHT_CHANGE = 'after height change'
    ON_ITS_COUPLING = 'on its coupling'
    ONE_SIDE = 'one side'
    BOTH_SIDES_BY_TURNS = 'both sides by turns'
    LAW_AND_JUDGEMENT = 'law and judgement'
class ChartGroup:
    title: str
    lines: tuple[ChartLine, ...]
    ...
class ChartLine:
    corners: tuple[str, ...]
    pair: FamilyRow
    @property
    def is_without_changes(self) -> bool: ...
    @property
    def key(self) -> tuple[str, str]: ...
    @property
    def side(self) -> str: ...
    @property
    def why_not(self) -> str: ...
    ...
class ChartWheelbase:
    vehicle_id: str
    vehicle_title: str
    place: AxlePlace
    called: str
    height: Quantity | None
    standard_bars: tuple[str, ...]
    standard_rate: Quantity | None
    @property
    def key(self) -> tuple[str, str]: ...
    ...
class Clocking:
    turned_part: TurnedPart
    bolt_datum: BoltDatum
    ends: tuple[EndClocking, ...]
    cuts: int
    disturbed: tuple[BarEndName, ...]
    arm_tooth: int
    anchor_tooth: int
    rotation: Quantity
    nut_turns: Quantity
    pin_distance: Quantity
    pin_uncertainty: Quantity
    pin_rounding: Quantity
    nut_sense: TurningSense | None
    turns_left_clockwise: Quantity
    turns_left_counter_clockwise: Quantity
    thread_reserve: Quantity
    raising_sense: TurningSense
    height_per_turn: Quantity | None
    @property
    def pin_left_open(self) -> Quantity: ...
    @property
    def summary(self) -> str: ...
    ...
class Comparison:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    one: str
    other: str
    rows: tuple[ComparisonRow, ...]
    rests_on: tuple[UnmeasuredSource, ...]
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class ComparisonRow:
    figure: str
    one: Quantity | int | None
    other: Quantity | int | None
    change: Quantity | int | None
    percent: float | None
    ...
class CornerCheck:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    vehicle_id: str
    corner: str
    variant: str
    plan: Plan | None
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    @property
    def place(self) -> str: ...
    def refused(self) -> str: ...
    ...
class CornerDeviation:
    corner: str
    height: Quantity
    expected_height: Quantity
    own_uncertainty: Quantity
    common_uncertainty: Quantity
    deviation: Quantity
    ...
class CornerSheet:
    corner: str
    parts: tuple[SheetPart, ...]
    load: Quantity
    load_is: str
    rates: Rates
    strength: Strength
    reindex: Reindex
    plan_number: int
    plan: Plan | None
    nut_table: NutTable | None
    views: CornerViews | None
    @property
    def findings(self) -> tuple[Finding, ...]: ...
    @property
    def fit(self) -> LengthFit: ...
    @property
    def headline(self) -> str: ...
    @property
    def other_plans(self) -> tuple[tuple[int, Plan], ...]: ...
    @property
    def outcome(self) -> Outcome: ...
    @property
    def verdict(self) -> Verdict: ...
    ...
class CornerState:
    arm_angle: Quantity
    height: Quantity
    twist: Quantity
    torque: Quantity
    shear_stress: Quantity
    wheel_load: Quantity
    wheel_rate: Quantity
    damper_length: Quantity
    stroke_to_closed: Quantity
    stroke_to_open: Quantity
    ...
class CornerViews:
    bar_ends: tuple[BarEndView, ...]
    adjuster: AdjusterView | None
    bar_axis: BarAxisView
    ...
class Diagnosis:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    corners: tuple[CornerDeviation, ...]
    causes: tuple[Cause, ...]
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class Donor:
    arm_id: str
    anchor_id: str
    arm_title: str
    anchor_title: str
    arm_numbers: tuple[PartNumber, ...]
    anchor_numbers: tuple[PartNumber, ...]
    swapped: tuple[str, ...]
    fit: LengthFit
    system_rate: Quantity
    tube_rate: Quantity | None
    free_angle_change: Quantity | None
    ...
class Donors:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    fit: LengthFit
    combinations: tuple[Donor, ...]
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class EndAction:
    STAYS = 'leave this end on the tooth it is on'
    BLANK_ON_KEY = 'put an existing blank on the key'
    REMOVE_TOOTH = 'remove a tooth of the bar'
    NO_KEY = 'this socket has no key: any tooth goes where the key would be'
class EndClocking:
    end: BarEndName
    action: EndAction
    tooth: int
    direction: TurningSense | None
    seen_from: BarEndName
    tooth_datum: ToothDatum
    cuts: int
    ...
class EndFit:
    end: BarEndName
    engagement: Quantity
    required: Quantity
    protrusion: Quantity
    bare_head: Quantity
    ...
class EndWork:
    end: BarEndName
    action: EndAction
    tooth: int
    direction: TurningSense | None
    seen_from: BarEndName
    on_key: BlankTooth
    key_may_be_cleared: bool
    blank_count: int
    missing_tooth_factor: float | None
    key_angle: Quantity
    key_direction: TurningSense | None
    tooth_datum: ToothDatum
    datum_angle: Quantity | None
    datum_direction: TurningSense | None
    ...
class EstimatedFigure:
    figure: str
    value: Quantity
    tolerance: Quantity
    ...
class FamilyChart:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    family: str
    wheelbases: tuple[ChartWheelbase, ...]
    grouped_by: ChartGrouping
    groups: tuple[ChartGroup, ...]
    not_offered: tuple[NotOffered, ...]
    other_splines: int
    filtered: int
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def lines(self) -> tuple[ChartLine, ...]: ...
    def on(self, wheelbase: ChartWheelbase) -> tuple[ChartLine, ...]: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class FamilyCount:
    vehicles: int
    bars: int
    pairs: int
    pruned: tuple[Tally, ...]
    fits: tuple[Tally, ...]
    strengths: tuple[Tally, ...]
    errors: int
    @property
    def excluded(self) -> int: ...
    @property
    def fitting(self) -> int: ...
    @property
    def headline(self) -> str: ...
    @classmethod
    def of(cls, counted: Counted, *, vehicles: int, bars: int) -> Self: ...
    @property
    def offered(self) -> int: ...
    @property
    def verdict(self) -> Verdict: ...
    ...
class FamilyFile:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    count: FamilyCount
    file: str
    pieces: int
    earlier: int
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class FamilyMatrix:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    count: FamilyCount
    rows: tuple[FamilyRow, ...]
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class FamilyRow:
    vehicle_id: str
    vehicle_title: str
    corner: str
    bar_id: str
    bar_title: str
    is_standard: bool
    fit: Verdict | None
    changes: tuple[str, ...]
    reason: str
    height: Quantity | None
    rates: Verdict | None
    bar_rate: Quantity | None
    system_rate: Quantity | None
    wheel_rate: Quantity | None
    wheel_rate_change: float | None
    ride_frequency: Quantity | None
    bump_stress: Quantity | None
    strength: Verdict | None
    clocking: Verdict | None
    arm_tooth: int | None
    anchor_tooth: int | None
    cuts: int | None
    error_code: str
    error_text: str
    @property
    def fits(self) -> bool: ...
    @property
    def is_offered(self) -> bool: ...
    ...
class FatigueLife:
    ranges: QuantityArray
    means: QuantityArray
    counts: tuple[float, ...]
    history_source: str
    covers: Quantity | None
    woehler_band: WoehlerBand | None
    ultimate: StressLimit | None
    band: LifeBand | None
    lasts_one_run: bool
    ...
class FigureState:
    MISSING = 'missing'
    ASSUMED = 'assumed'
    UNSURE = 'unsure'
    KNOWN = 'known'
class FileProblem:
    code: str
    value: str
    expected: str
    remedy: str
    file: str
    line: int
    key: str
    @property
    def place(self) -> str: ...
    @property
    def text(self) -> str: ...
    ...
class FilletStress:
    end: BarEndName
    concentration: float
    greatest: Quantity
    amplitude: Quantity | None
    ...
class Finding:
    topic: Topic
    text: str
    figure: Limit
    limit: Limit
    upper: Limit
    end: BarEndName | None
    @property
    def found(self) -> str: ...
    @property
    def line(self) -> str: ...
    @property
    def what(self) -> str: ...
    ...
class GivenConstant:
    symbol: str
    meaning: str
    si_value: float
    unit: WorkingUnit
    source: str
    ...
class GivenFigure:
    symbol: str
    meaning: str
    si_value: float
    unit: WorkingUnit
    written: Quantity | None
    comes_from: TrailLine | TrailFact | None
    said_by: str
    ...
class HaighLine:
    means: QuantityArray
    amplitudes: QuantityArray
    ...
class HeadLoad:
    end: BarEndName
    torque: Quantity
    teeth_left: int
    missing_tooth_factor: float
    root_shear: Quantity
    tooth_shear: Quantity
    tooth_bearing: Quantity
    method: str
    ...
class Identification:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    possible_bars: tuple[PossibleBar, ...]
    unlisted: float
    next_readings: tuple[NextReading, ...]
    assumed: tuple[AssumedError, ...]
    @property
    def disagreeing(self) -> tuple[OddFigure, ...]: ...
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class JobCheck:
    file: str
    exit_code: int
    corners: tuple[CornerCheck, ...]
    problems: tuple[FileProblem, ...]
    rests_on: tuple[UnmeasuredSource, ...]
    @property
    def headline(self) -> str: ...
    @property
    def mark(self) -> str: ...
    @property
    def outcome(self) -> Outcome: ...
    @property
    def reasons(self) -> tuple[str, ...]: ...
    @property
    def refused(self) -> tuple[CornerCheck, ...]: ...
    @property
    def remarks(self) -> tuple[str, ...]: ...
    ...
class JointParting:
    torque: Quantity
    energy: Quantity
    downward_force: Quantity
    drop: Quantity
    ...
class LengthFit:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    reasons: tuple[Finding, ...]
    changes: tuple[Finding, ...]
    ends: tuple[EndFit, ...]
    position: Quantity
    free_from: Quantity
    free_to: Quantity
    active_length: Quantity | None
    engaged_span: Quantity | None
    lever_offset: Quantity | None
    cap_offset: Quantity | None
    largest_body: Quantity
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def open_findings(self) -> tuple[Finding, ...]: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class LifeBand:
    fewest_runs: float | None
    most_runs: float | None
    shortest: Quantity | None
    longest: Quantity | None
    stress_uncertainty: float
    concentration: float
    basis: tuple[LifeBasis, ...]
    ...
class LifeBasis:
    MINER = "Miner's sum: failure at a third of it at the lower end, at thrice it at the upper one"
    ONE_LINE = 'one line of lives without its scatter: the true band is wider'
    TWO_LINES = 'the scatter of the bars, by the two lines of lives that were given'
    ESTIMATED = 'the scatter of the steel: 95 % of bars outlive the lower line, 5 % the upper one; both are estimated from its tensile strength'
    ANY_SURFACE = "any surface from as-forged to ground, because the bar's is not stated"
    STATED_SURFACE = 'the surface as stated'
    FIGURES = 'the ± of the stresses from tolerances, about 95 %'
    EXACT_FIGURES = 'no ± of the stresses: no figure that moves them has a tolerance'
    FILLETS = 'the stress concentration of the fillets: all of it at the lower end, none at the upper one'
    NO_FILLETS = 'no stress concentration beside the heads: no fillet radius is known'
    UNKNOWN_FILLETS = 'no stress concentration of the fillets: it is not known'
    PRESETTING = 'the residual stress of pre-setting at the upper end only, because it may fade in use'
    UNKNOWN_PRESETTING = 'no residual stress of pre-setting: its twist is not known; in its own sense it lengthens the life'
    NO_PEENING = 'no shot peening: no published figure for it is to hand; only if the bar is peened, give a line of tests on peened bars'
    NO_DAMAGE = 'a sound surface: no published life holds for a nick or rust, and the bar is scrap'
class LintFinding:
    rule: str
    code: str
    severity: Severity
    pack: str
    of: str
    file: str
    line: int
    key: str
    message: str
    remedy: str
    @property
    def is_flaw(self) -> bool: ...
    @property
    def text(self) -> str: ...
    ...
class LoadCurveView:
    corner: str
    height: QuantityArray
    wheel_load: QuantityArray
    droop: CornerState
    ride: CornerState
    bump: CornerState
    ...
class Lock:
    schema: int
    library: str
    pack: tuple[LockedPack, ...]
    @property
    def by_id(self) -> Mapping[str, LockedPack]: ...
    @property
    def overlays(self) -> tuple[str, ...]: ...
    ...
class LockedPack:
    id: str
    origin: str
    version: str | None
    digest: str
    layer: int | None
    ...
class Needs:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    vehicle: str
    corner: str
    rows: tuple[NeedsRow, ...]
    as_it_stands: tuple[NeedsRow, ...]
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def missing(self) -> tuple[NeedsRow, ...]: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    @property
    def unsure(self) -> tuple[NeedsRow, ...]: ...
    ...
class NeedsRow:
    figure: str
    key: str
    named: str
    state: FigureState
    value: Quantity | None
    half_width: Quantity | None
    written_in: str
    tool: str
    where: str
    usual_error: Quantity | None
    waiting: tuple[AskedFor, ...]
    percent: float
    ...
class NextReading:
    asked: str
    tool: str
    where: str
    is_repeated: bool
    certainty: float
    ...
class NotOffered:
    reason: str
    places: tuple[str, ...]
    bars: tuple[str, ...]
    ...
class NutCorrection:
    measured_height: Quantity
    wanted_height: Quantity
    height_offset: Quantity
    correcting_turns: Quantity
    correcting_sense: TurningSense | None
    nut_turns: Quantity
    pin_distance: Quantity
    height: Quantity
    ...
class NutCurve:
    nut_turns: QuantityArray
    from_slack_end: QuantityArray
    pin_distance: QuantityArray
    height: QuantityArray
    droop_left: QuantityArray
    bump_left: QuantityArray
    torque: QuantityArray
    bolt_at_ride: QuantityArray
    bolt_at_bump: QuantityArray
    unsafe_stretches: tuple[UnsafeStretch, ...]
    ...
class NutMove:
    corner: str
    turned_part: TurnedPart
    bolt_datum: BoltDatum
    correcting_turns: Quantity
    correcting_sense: TurningSense | None
    is_raised: bool
    height_per_turn: Quantity
    nut_turns: Quantity
    pin_distance: Quantity
    left_to_raise: Quantity
    left_to_lower: Quantity
    @property
    def in_words(self) -> str: ...
    ...
class NutRow:
    raising_turns: int
    nut_turns: Quantity
    from_slack_end: Quantity
    pin_distance: Quantity
    height: Quantity
    height_per_turn: Quantity
    droop_left: Quantity
    bump_left: Quantity
    torque: Quantity
    bolt_at_ride: Quantity
    bolt_at_bump: Quantity
    support: Support
    slack_at_droop: bool
    lever_unheld: bool
    bolt_takes_set: bool
    @property
    def is_safe(self) -> bool: ...
    @property
    def is_set(self) -> bool: ...
    ...
class NutSettings:
    aim: BalanceAim
    verdict: Verdict
    findings: tuple[Finding, ...]
    moves: tuple[NutMove, ...]
    scales: tuple[WheelOnScale, ...]
    cross_weight: float
    cross_uncertainty: float
    @property
    def is_large(self) -> bool: ...
    @property
    def turned(self) -> tuple[NutMove, ...]: ...
    ...
class NutTable:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    fit: LengthFit
    turned_part: TurnedPart | None
    bolt_datum: BoltDatum | None
    raising_sense: TurningSense | None
    height_uncertainty: Quantity | None
    table_rows: tuple[NutRow, ...]
    nut_curve: NutCurve | None
    correction: NutCorrection | None
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def most_lowering(self) -> int | None: ...
    @property
    def most_raising(self) -> int | None: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    def rows_near(self, turns: FigureLike | None = None, *, count: int = 5) -> tuple[NutRow, ...]: ...
    @property
    def set_row(self) -> NutRow: ...
    ...
class OddFigure:
    named: str
    observed: Quantity | int
    listed: Quantity | int
    ...
class Overstress:
    is_judged: bool
    exceeded: tuple[Finding, ...]
    unknown: tuple[Finding, ...]
    @property
    def findings(self) -> tuple[Finding, ...]: ...
    @property
    def is_overstressed(self) -> bool: ...
    ...
class PackLint:
    folder: str
    pack: str
    exit_code: int
    findings: tuple[LintFinding, ...]
    waived: tuple[LintFinding, ...]
    @property
    def mark(self) -> str: ...
    ...
class Paper:
    A4 = 'A4'
    LETTER = 'Letter'
class PartRates:
    bar_rate: Quantity
    tube_rate: Quantity | None
    system_rate: Quantity
    ...
class Plan:
    made_for: PlannedCorner
    verdict: Verdict
    ends: tuple[EndWork, ...]
    cuts: int
    disturbed: tuple[BarEndName, ...]
    arm_tooth: int
    anchor_tooth: int
    nut_turns: Quantity | None
    pin_distance: Quantity | None
    nut_sense: TurningSense | None
    turns_left_clockwise: Quantity | None
    turns_left_counter_clockwise: Quantity | None
    thread_reserve: Quantity | None
    raising_sense: TurningSense | None
    height: Quantity
    height_rounding: Quantity
    height_uncertainty: Quantity
    height_per_turn: Quantity | None
    droop: CornerState
    bump: CornerState
    droop_left: Quantity
    bump_left: Quantity
    fitting: tuple[Assembly, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    cost: PlanCost | None
    bolt_datum: BoltDatum | None
    @property
    def height_in_words(self) -> str: ...
    @property
    def height_left_open(self) -> Quantity: ...
    @property
    def set_in_words(self) -> str: ...
    @property
    def summary(self) -> str: ...
    @property
    def work(self) -> str: ...
    ...
class PlanCost:
    teeth: int
    ends: int
    thread_reserve: Quantity | None
    ...
class PlannedCorner:
    chassis_id: str
    corner: str
    part_ids: tuple[str, ...]
    arm_teeth: int
    anchor_teeth: int
    @classmethod
    def of(cls, setup: Setup) -> PlannedCorner: ...
    ...
class PossibleBar:
    bar_ids: tuple[str, ...]
    bar_titles: tuple[str, ...]
    probability: float
    arm_end: int | None
    odd_figures: tuple[OddFigure, ...]
    standard_on: tuple[str, ...]
    claimed_for: tuple[str, ...]
    @property
    def named(self) -> str: ...
    ...
class RateCurve:
    arm_angle: QuantityArray
    height: QuantityArray
    torque: QuantityArray
    wheel_load: QuantityArray
    wheel_rate: QuantityArray
    camber_change: QuantityArray
    track_change: QuantityArray
    motion_ratio: tuple[float, ...]
    wheelbase_change: QuantityArray | None
    ...
class RateFigures:
    bar_rate: Quantity
    tube_rate: Quantity | None
    system_rate: Quantity
    shear_modulus: Quantity
    shear_modulus_tolerance: Quantity | None
    droop: CornerState
    ride: CornerState
    bump: CornerState
    curve: RateCurve
    ride_frequency: Quantity | None
    damping_ratio: float | None
    heads: tuple[HeadLoad, ...]
    bolt: BoltLoad | None
    wheel_hop_frequency: Quantity | None
    wheel_hop_damping: float | None
    ...
class Rates:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    fit: LengthFit
    figures: RateFigures | None
    by_part: PartRates | None
    @property
    def bar_rate(self) -> Quantity: ...
    @property
    def bump(self) -> CornerState: ...
    @property
    def curve(self) -> RateCurve: ...
    @property
    def droop(self) -> CornerState: ...
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    @property
    def ride(self) -> CornerState: ...
    @property
    def ride_frequency(self) -> Quantity: ...
    @property
    def system_rate(self) -> Quantity: ...
    @property
    def wheel_rate(self) -> Quantity: ...
    ...
class Reindex:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    fit: LengthFit
    wanted_height: Quantity | None
    reachable_from: Quantity
    reachable_to: Quantity
    free_angle: Quantity | None
    free_angle_uncertainty: Quantity | None
    lever_angle_uncertainty: Quantity | None
    enough_thread_reserve: Quantity | None
    uncut_height: Quantity | None
    plans: tuple[Plan, ...]
    rejected: tuple[Plan, ...]
    unloading: Unloading | None
    pin_now: Quantity | None
    clockings: tuple[Clocking, ...]
    trial: UncutTrial | None
    def after_trial(self, text: str) -> str: ...
    @property
    def doubt(self) -> str: ...
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    @property
    def preferred(self) -> Plan: ...
    def refused(self) -> str: ...
    @property
    def removal(self) -> tuple[Assembly, ...]: ...
    ...
class Ride:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    fit: LengthFit
    free_angle: Quantity | None
    state: CornerState | None
    within_travel: bool
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def height(self) -> Quantity: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class RideAndRoll:
    front_frequency: Quantity
    rear_frequency: Quantity
    bounce_frequency: Quantity | None
    pitch_frequency: Quantity | None
    roll_frequency: Quantity | None
    front_roll_rate: Quantity
    rear_roll_rate: Quantity
    front_roll_share: float
    lateral_acceleration: float
    body_roll: Quantity | None
    front_transfer: Quantity | None
    rear_transfer: Quantity | None
    first_lift: float | None
    ...
class RowError:
    row: int
    code: str
    text: str
    ...
class Selection:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    goal: Goal
    target: Quantity | None
    present_rate: Quantity | None
    options: tuple[BarOption, ...]
    sieves: tuple[Sieve, ...]
    untried: int
    size: SizeForGoal | None
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    @property
    def preferred(self) -> BarOption: ...
    def refused(self) -> str: ...
    ...
class Severity:
    ERROR = 'error'
    WARNING = 'warning'
    NOTE = 'note'
class SheetMeasurement:
    what: str
    where: str
    tool: str
    expected: tuple[str, ...]
    ...
class SheetPart:
    kind: str
    id: str
    title: str
    replaces: str
    numbers: tuple[PartNumber, ...]
    paint: str
    replaced_by: tuple[str, ...]
    @property
    def line(self) -> str: ...
    ...
class SheetRow:
    what: str
    values: tuple[str, ...]
    @property
    def value(self) -> str | None: ...
    ...
class SheetStage:
    title: str
    steps: tuple[SheetStep, ...]
    ...
class SheetStep:
    text: str
    branch: tuple[str, ...]
    corners: tuple[str, ...]
    refused: bool
    @property
    def line(self) -> str: ...
    ...
class Sieve:
    requirement: str
    removed: int
    kept: int
    nearest: str
    remedy: str
    ...
class SizeForGoal:
    diameter: Quantity | None
    largest: Quantity | None
    stopped_by: Finding | None
    @property
    def is_too_thick(self) -> bool: ...
    ...
class SolvedFigure:
    symbol: str
    meaning: str
    si_value: float
    unit: WorkingUnit
    how: str
    checked_by: tuple[str, ...]
    figure: str
    kind: Kind | None
    uncertainty: float | None
    ...
class SplineForm:
    standard: SplineStandard
    designation: str
    probability: float
    teeth: int
    module: Quantity | None
    pressure_angle: Quantity | None
    pitch_diameter: Quantity | None
    base_diameter: Quantity | None
    tooth_thickness: Quantity | None
    tip_thickness: Quantity | None
    major_diameter: Quantity | None
    root_diameter: Quantity | None
    over_pins: Quantity | None
    socket_major_diameter: Quantity | None
    socket_minor_diameter: Quantity | None
    tip_clearance: Quantity | None
    contact_depth: Quantity | None
    @property
    def named(self) -> str: ...
    ...
class SplineIdentification:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    possible_forms: tuple[SplineForm, ...]
    unlisted: float
    pin_diameter: Quantity
    next_readings: tuple[NextReading, ...]
    assumed: tuple[AssumedError, ...]
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class SplineStandard:
    METRIC = 'ISO 4156'
    REFERENCE = 'DIN 5480'
    INCH = 'ANSI B92.1'
    SERRATION = 'serration with straight flanks of 60°'
class Strength:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    fit: LengthFit
    figures: StrengthFigures | None
    @property
    def at_yield(self) -> StressCheck: ...
    @property
    def bump(self) -> StressCheck: ...
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def life(self) -> FatigueLife: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    @property
    def swing(self) -> StressSwing: ...
    ...
class StrengthFigures:
    preset: bool
    droop: StressCheck
    ride: StressCheck
    bump: StressCheck
    droop_at_yield: StressCheck
    at_yield: StressCheck
    swing: StressSwing | None
    life: FatigueLife | None
    fillets: tuple[FilletStress, ...]
    residual_stress: Quantity | None
    kept_twist: Quantity | None
    bolt: BoltLoad | None
    grip: ThreadGrip | None
    @property
    def least_factor(self) -> float | None: ...
    ...
class StressCheck:
    stress: Quantity
    limit: StressLimit | None
    factor: float | None
    @property
    def is_exceeded(self) -> bool: ...
    ...
class StressLimit:
    stress: Quantity
    source: str
    ...
class StressSwing:
    travel: Quantity
    mean: Quantity
    amplitude: Quantity
    endurance: StressLimit | None
    ultimate: StressLimit | None
    goodman_factor: float | None
    haigh_line: HaighLine | None
    gerber_factor: float | None
    soderberg_factor: float | None
    elliptic_factor: float | None
    yield_factor: float | None
    ...
class Support:
    BAR = 'the bar, with the springs beside it'
    SPRINGS = 'the springs beside the bar, which is slack'
    DROOP = 'the limit of droop'
    BUMP = 'the limit of bump'
class Tally:
    what: str
    pairs: int
    ...
class TemplateView:
    title: str
    paper: Paper
    ends: tuple[BarEndView, ...]
    page: int
    pages: int
    @property
    def missing(self) -> tuple[str, ...]: ...
    @property
    def notes(self) -> tuple[str, ...]: ...
    ...
class ThreadGrip:
    nut_height: Quantity
    bolt_thread_shear: Quantity
    nut_thread_shear: Quantity
    needed_height: Quantity | None
    thread_share: float | None
    ...
class Tolerance:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    coverage_factor: float
    draws: int
    inputs: tuple[ToleranceInput, ...]
    rows: tuple[ToleranceRow, ...]
    gaps: tuple[ToleranceGap, ...]
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    @property
    def reported(self) -> ToleranceRow | None: ...
    ...
class ToleranceGap:
    figure: str
    value: Quantity | None
    draws: int
    missing: tuple[str, ...]
    text: str
    ...
class ToleranceInput:
    figure: str
    value: Quantity
    half_width: Quantity
    ...
class ToleranceRow:
    figure: str
    nominal: Quantity
    uncertainty: Quantity | None
    low: Quantity | None
    high: Quantity | None
    shares: tuple[ToleranceShare, ...]
    ...
class ToleranceShare:
    figure: str
    change: Quantity
    percent: float
    ...
class ToothDatum:
    PRESENT = 'the tooth that is on the key now'
    BLANK = "the maker's blank"
    MARK = 'the marked tooth'
class Topic:
    SWAPPED_ARM = 'swapped arm'
    SWAPPED_ANCHOR = 'swapped anchor'
    NEW_CAP_HOLES = 'new cap holes'
    WRONG_SIDE = 'made for the other side'
    ENGAGEMENT = 'engagement'
    NO_OVERLAP = 'no overlap'
    STOPS = 'space between the stops'
    SPACE_BEHIND = 'space behind the anchor'
    LEVER_OFF_BOLT = 'lever off its bolt'
    TOOTH_COUNT = 'tooth count'
    TOOTH_FORM = 'tooth form'
    TOOTH_DEPTH = 'depth of the teeth'
    WAY_IN = 'the way in'
    NO_BLANK = 'no blank for the key'
    SLACK = 'slack at full droop'
    TRAVEL = 'travel of the suspension'
    THREAD = 'thread of the adjuster'
    CLOCKING = 'clocking of a fixed socket'
    NUT_MARGIN = 'turns left on the adjuster'
    LOAD = 'load'
    BUSHING = 'rubber of the arm'
    STRESS = 'stress'
    ASSEMBLY = 'assembly'
    PRESENT = 'what is on the car now'
    MEASURED = 'measured height'
    READINGS = 'several readings of a corner'
    NOTHING_LEFT = 'nothing left to choose'
    ODD_FIGURE = 'a figure that disagrees'
    CUTS = 'teeth to remove'
    BOTH_SIDES = 'both sides of the axle'
    BALANCE = 'balance of the vehicle'
    NEEDED = 'figures that are needed'
    ASSUMED = 'figures that are assumed'
    UNCERTAINTY = 'figures that are not known well enough'
class Trail:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    vehicle: str
    corner: str
    figure: str
    value: Quantity | None
    lines: tuple[TrailLine, ...]
    facts: tuple[TrailFact, ...]
    preferences: tuple[Preference, ...]
    rests_on: tuple[UnmeasuredSource, ...]
    parts: tuple[TrailPart, ...]
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class TrailFact:
    fact: str
    value: str
    source: str
    source_kind: SourceKind | None
    note: str
    at: str
    file: str
    key: str
    replaces: Figure | None
    why: str
    taken_by: str
    ...
class TrailLine:
    figure: str
    value: Quantity
    tolerance: Quantity | None
    written: str
    source: str
    source_kind: SourceKind | None
    note: str
    at: str
    file: str
    key: str
    replaces: Figure | None
    why: str
    taken_by: str
    step: Quantity | None
    effect: Quantity | None
    ...
class TrailPart:
    place: str
    id: str
    title: str
    pack_version: str
    numbers: tuple[PartNumber, ...]
    paint: str
    remarks: tuple[str, ...]
    replaces: tuple[str, ...]
    replaced_by: tuple[str, ...]
    ...
class TurnedPart:
    NUT = 'nut'
    BOLT = 'bolt'
class TurningSense:
    CLOCKWISE = 'clockwise'
    COUNTER_CLOCKWISE = 'counter-clockwise'
class UncutTrial:
    plan: Plan
    wanted_height: Quantity
    close_enough: Quantity
    @property
    def condition(self) -> str: ...
    @property
    def lead(self) -> str: ...
    @property
    def target(self) -> str: ...
    ...
class Unloading:
    way: UnloadingMethod
    damper_on: Assembly
    damper_off: Assembly
    parting: JointParting | None
    findings: tuple[Finding, ...]
    @property
    def damper_helps(self) -> bool: ...
    ...
class UnloadingMethod:
    DAMPER_ON = 'damper on'
    DAMPER_OFF = 'damper off'
    JOINT_PARTED = 'ball joint parted'
    NONE = 'no safe way known'
class UnmeasuredSource:
    kind: str
    source: str
    figures: tuple[EstimatedFigure, ...]
    ...
class UnsafeStretch:
    unsafe_from: Quantity
    unsafe_to: Quantity
    lever_unheld: bool
    bolt_takes_set: bool
    ...
class WheelOnScale:
    corner: str
    scale_reading: Quantity
    scale_uncertainty: Quantity | None
    height: Quantity | None
    height_uncertainty: Quantity | None
    ...
class Working:
    verdict: Verdict
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    vehicle: str
    corner: str
    asked: str
    figure: str
    answered: str
    system: System
    sections: tuple[WorkingSection, ...]
    rests_on: tuple[UnmeasuredSource, ...]
    @property
    def further_findings(self) -> tuple[Finding, ...]: ...
    @property
    def has_conditions(self) -> bool: ...
    @property
    def headline(self) -> str: ...
    @property
    def is_answered(self) -> bool: ...
    @property
    def lines(self) -> tuple[Line, ...]: ...
    @property
    def outcome(self) -> Outcome: ...
    def refused(self) -> str: ...
    ...
class WorkingBalance:
    solved: str
    meaning: str
    left_side: Expression
    right_side: Expression
    sides: tuple[float, float]
    unit: WorkingUnit
    source: str
    ...
class WorkingSection:
    title: str
    lines: tuple[Line, ...]
    ...
class WorkingStep:
    symbol: str
    meaning: str
    equation: Expression
    si_value: float
    unit: WorkingUnit
    source: str
    second_unit: WorkingUnit | None
    figure: str
    kind: Kind | None
    uncertainty: float | None
    ...
