using RigControl.Documents.Text;
using RigControl.Model.Procedures;

namespace RigControl.Documents.Procedures;

/// <summary>Holds the order of the steps: armed before driven, run down before at rest, nothing left energised.</summary>
internal sealed class StepOrder(ProblemList problems)
{
    private Stage stage = Stage.Off;
    private Place last = Place.Start;

    private enum Stage : byte
    {
        /// <summary>An unknown step came: what follows cannot be judged.</summary>
        Unknown,
        Off,
        Armed,
        Driven,

        /// <summary>The receiver drives.</summary>
        Gated,
    }

    /// <param name="kind">Null for a step of no known kind.</param>
    public void Next(StepKind? kind, Place place)
    {
        last = place;
        bool refused = false;
        if (stage != Stage.Unknown && Objection(kind) is var (what, remedy))
        {
            problems.Add(place, what, remedy);
            refused = true;
        }
        stage = kind switch
        {
            // Judged as if it were not there, so that one slip is not reported again at every step that follows.
            not (StepKind.SpinUp or StepKind.Hold or StepKind.CoastDown or StepKind.Gate) when refused => stage,
            StepKind.Arm => Stage.Armed,
            StepKind.SpinUp or StepKind.Hold => Stage.Driven,
            StepKind.Gate => Stage.Gated,
            null => Stage.Unknown,
            _ => Stage.Off,
        };
    }

    /// <summary>To be called after the last step.</summary>
    public void End()
    {
        if (stage is Stage.Armed or Stage.Driven or Stage.Gated)
            problems.Add(last, "the procedure ends while the output is energised", "add a coast-down after this step");
    }

    private (string What, string Remedy)? Objection(StepKind? kind) => (kind, stage) switch
    {
        (StepKind.Provoke, _) => ("no file makes a fault on purpose", "leave this to `rigcontrol failsafe`, which keeps below its own ceiling"),
        (StepKind.Arm, Stage.Armed or Stage.Driven or Stage.Gated) => ("the output is already energised here", "arm only at the beginning or after a coast-down"),
        (StepKind.SpinUp, Stage.Off) => ("nothing is armed here", "put an arm step before the spin-up"),
        (StepKind.SpinUp or StepKind.Hold, Stage.Gated) => ("the receiver drives here", "put a coast-down and an arm between the gate and this step"),
        (StepKind.Gate, Stage.Off) => ("nothing is armed here", "put an arm step before the gate"),
        (StepKind.Gate, Stage.Driven or Stage.Gated) => ("the output is already driven here", "open the gate right after an arm"),
        (StepKind.Hold, Stage.Off or Stage.Armed) => ("there is no level to hold here", "put a spin-up before the hold"),
        (StepKind.CoastDown, Stage.Off or Stage.Armed) => ("nothing turns here that could coast down", "put a spin-up before the coast-down"),
        (StepKind.Rest or StepKind.Observe or StepKind.Ask or StepKind.Trial, Stage.Armed or Stage.Driven or Stage.Gated) =>
            ("the output is still energised here", $"put a coast-down before the {Words.Of(kind.Value)}"),
        _ => null,
    };
}
