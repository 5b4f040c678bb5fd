using RigControl.Cli.Asking;
using RigControl.Documents;

namespace RigControl.Cli.Tests.Asking;

/// <summary>Whole sets of answers, as a person might give them, and a prompter that gives them.</summary>
internal sealed class Answers(IEnumerable<string> answers, bool canAskAgain = false) : IPrompter
{
    private readonly Queue<string> _left = new(answers);

    public static readonly string[] Article =
    [
        "bench-motor", "one-way", "longer", "1000 us", "2000 us", "1000 us", "no", "unknown", "2 s",
        "yes", "180 g", "45 mm", "0.00018 kg.m2", "10000 rpm",
        "yes", "1000 rpm/V", "80 mOhm", "1.2 A", "30 A", "yes", "LiPo", "3S", "1300 mAh", "30 mOhm", "0.5 s", "60 s", "0.5 s",
    ];

    public static readonly string[] MotorOnly =
        ["bare", "two-way", "longer", "1000 us", "2000 us", "1500 us", "yes", "runs-on", "3 s", "no", "no", "no", "0 s", "5 s", "1 s"];

    public static readonly string[] Procedure =
    [
        "half", "3", "lid-closed, lid-locked", "10 s", "yes", "50 %", "2 s", "", "", "10 s", "3 s", "60 s", "1 s", "steady-speed, coast-down-time",
    ];

    public static readonly string[] Rules = ["club", "yes", "no", "no", "yes", "1.5 kg", "book: \"A\" #3", "2026-05-31", "30 V", "page 2", "2026-01-01"];

    public static readonly string[] Rig =
    [
        "box", "", "yes", "400 J", "test sheet", "60 rpm", "1 s", "simulated-rig", "no more",
        "yes", "no", "yes", "yes", "yes", "35 A", "60 A", "yes", "9000 rpm", "yes", "rotor.speed", "50 ms", "no", "yes", "yes", "5 %", "300 rpm", "1 s",
        "yes", "motor.temperature", "80 degC", "20 K", "5 s", "yes", "controller.temperature", "90 degC", "20 K", "5 s", "no", "yes", "9 V",
        "rate-limit", "motor.temperature", "5 1", "1 s", "readings-agree", "motor.temperature", "controller.temperature", "40 1",
        "current-without-power", "0.5 A", "operator-present", "no more",
    ];

    public static readonly string[] BoardRig =
    [
        "board-box", "", "no", "60 rpm", "1 s", "rig-board", "/dev/ttyUSB0", "14000 rpm", "1 s", "55 A", "30 V", "62.5 A", "10000 Ohm", "3950 K",
        "10000 Ohm", "no more", "yes", "yes", "yes", "yes", "no", "yes", "13500 rpm", "no", "yes", "no", "no", "no", "no more",
    ];

    /// <summary>Every kind of file with a set of answers and the script that asks for it.</summary>
    public static IReadOnlyList<(string Name, string[] Given, Action<Interview> Script)> All { get; } =
    [
        ("article", Article, ArticleQuestions.Ask),
        ("article of a motor alone", MotorOnly, ArticleQuestions.Ask),
        ("procedure", Procedure, ProcedureQuestions.Ask),
        ("rules", Rules, RulesQuestions.Ask),
        ("simulated rig", Rig, ask => new RigQuestions(Installed.Plugins.Kinds).Ask(ask)),
        ("rig on the board", BoardRig, ask => new RigQuestions(Installed.Plugins.Kinds).Ask(ask)),
    ];

    public bool CanAskAgain => canAskAgain;

    public List<string> Said { get; } = [];

    public List<Question> Asked { get; } = [];

    public int Left => _left.Count;

    public void Say(string line) => Said.Add(line);

    public string? Ask(int number, Question question)
    {
        Asked.Add(question);
        return _left.TryDequeue(out string? answer) ? answer : null;
    }

    /// <summary>The file that these answers make.</summary>
    public string File(Action<Interview> script) => new Interview(this, Check).Run(script).Text;

    public static IReadOnlyList<Problem> Check(string text) => DocumentReader.Check(text, "f", Installed.Plugins.Kinds);
}
