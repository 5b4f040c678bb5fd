using RigControl.Interlocks;
using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Rigs;

/// <summary>A stop that is pressed removes the power at once, and no rig weakens that, whoever puts it together.</summary>
public class PowerCutTests
{
    [Trait("Requirement", "SAF-091")]
    [Theory]
    [InlineData("stop-clear", DemandAction.StopOutput)]
    [InlineData("stop-clear", DemandAction.Refuse)]
    [InlineData("lid-closed", DemandAction.StopOutput)]
    [InlineData("lid-closed", DemandAction.Refuse)]
    [InlineData("over-speed", DemandAction.StopOutput)]
    [InlineData("failsafe-confirmed", DemandAction.Refuse)]
    public void A_rig_that_asks_less_than_a_cut_of_what_always_cuts_is_refused_whoever_put_it_together(string kind, DemandAction action) => Assert.Equal(
        $"interlock {kind}: a trip of {kind} removes the power at once, and no rig file may ask for less; write `action: cut-power`, or leave `action` out",
        Assert.Single(Refused(Changed(kind, i => i with { Action = action }))));

    [Trait("Requirement", "SAF-091")]
    [Theory]
    [InlineData("stop-clear")]
    [InlineData("lid-closed")]
    [InlineData("over-speed")]
    [InlineData("failsafe-confirmed")]
    public void A_rig_that_limits_what_always_cuts_to_some_steps_is_refused(string kind) => Assert.Contains(
        Refused(Changed(kind, i => i with { Scope = InterlockScope.NamedSteps })),
        r => r.StartsWith($"interlock {kind}: {kind} removes the power in every step, and no rig file may limit it to some; write `scope: every-step`", StringComparison.Ordinal));

    [Fact]
    public void A_rig_that_writes_what_holds_anyway_is_accepted()
    {
        using AssembledRig rig = Assemble(Changed("stop-clear", i => i with { Action = DemandAction.CutPower }));
        Assert.Contains(rig.InterlockIdentities, i => i.Plugin == "stop-clear");
    }

    [Fact]
    public void What_need_not_cut_may_ask_for_less_and_count_in_some_steps()
    {
        InterlockDefinition heat = Define("heat", "temperature-ceiling", ("channel", ChannelNames.MotorTemperature), ("ceiling", 80.0), ("rise", 20.0), ("window", 2.0));
        RigDefinition rig = Sample.Rig with { Interlocks = [.. Sample.Rig.Interlocks, heat with { Action = DemandAction.StopOutput, Scope = InterlockScope.NamedSteps }] };
        Assert.Empty(PowerCuts.Weakened(rig, Plugins));
        using AssembledRig whole = Assemble(Sample with { Rig = rig });
        Assert.Contains(whole.InterlockIdentities, i => i.Id == "heat");
    }

    [Trait("Requirement", "SAF-091")]
    [Fact]
    public void A_lower_limit_for_some_steps_stands_only_beside_one_for_every_step_on_the_same_channel()
    {
        InterlockDefinition slower = Define("slower", "over-speed", ("limit", 3000.0)) with { Scope = InterlockScope.NamedSteps };
        InterlockDefinition wheel = Define("wheel", "over-speed", ("channel", "wheel.speed"), ("limit", 3000.0)) with { Scope = InterlockScope.NamedSteps };
        Assert.Empty(PowerCuts.Weakened(Sample.Rig with { Interlocks = [.. Sample.Rig.Interlocks, slower] }, Plugins));
        Assert.Equal((4, "scope"), Weakening([.. Sample.Rig.Interlocks, wheel]));
        Assert.Equal((0, "scope"), Weakening([slower, wheel with { Scope = InterlockScope.EveryStep }]));
        Assert.Equal(2, PowerCuts.Weakened(Sample.Rig with { Interlocks = [slower, slower with { Id = "again" }] }, Plugins).Count);
    }

    [Trait("Requirement", "SAF-091")]
    [Fact]
    public void A_plugin_of_somebody_else_can_say_the_same_of_its_interlock_and_is_then_made_to_cut()
    {
        DemandAction? made = null;
        ToyInterlockPlugin toy = new("belt-guard", context => Keep(context.Action)) { AlwaysCutsPower = true, Action = DemandAction.StopOutput };
        InterlockBinder binder = new(PluginCatalog.Of("other", [], [toy]), TestRig.SmallDisc, [], []);
        Assert.Empty(binder.BindAll([Define("belt", "belt-guard") with { Action = DemandAction.Refuse }]));
        Assert.StartsWith("interlock belt: a trip of belt-guard removes the power at once", Assert.Single(binder.Reasons), StringComparison.Ordinal);
        Assert.Null(made);
        Assert.Single(binder.BindAll([Define("belt", "belt-guard")]));
        Assert.Equal(DemandAction.CutPower, made);

        ToyInterlock Keep(DemandAction action)
        {
            made = action;
            return new ToyInterlock();
        }
    }

    [Trait("Requirement", "SAF-091")]
    [Fact]
    public void A_rig_that_reads_a_stop_on_which_nothing_stops_is_refused_and_no_other_name_or_channel_hides_it()
    {
        const string Alone = "the rig reads a stop circuit (stop.clear), and a stop pressed there would stop nothing; "
            + "add an interlock `plugin: stop-clear` with `options: { channel: stop.clear }` that counts in every step";
        Assert.Equal(Alone, Assert.Single(Refused(Sample with { Rig = Sample.Rig with { Interlocks = [.. Sample.Rig.Interlocks.Where(i => i.Plugin != "stop-clear")] } })));
        Assert.Equal(Alone, Assert.Single(Refused(Changed("stop-clear", i => i with { Options = new Dictionary<string, object> { ["channel"] = ChannelNames.EnclosureLock } }))));

        Dictionary<string, Func<DeviceContext, IDevice>> remote = new() { ["a"] = _ => new ToyDevice(ChannelNames.StopClear) };
        TestRig two = new() { Devices = remote, Renamed = { ["a"] = new() { [ChannelNames.StopClear] = "stop.remote" } } };
        Assert.Contains("(stop.remote)", Assert.Single(Refused(two.Documents, two)), StringComparison.Ordinal);
        RigDefinition both = two.Documents.Rig with { Interlocks = [.. two.Documents.Rig.Interlocks, Define("remote", "stop-clear", ("channel", "stop.remote"))] };
        using AssembledRig rig = Assemble(two.Documents with { Rig = both }, two);
        Assert.Equal(2, rig.InterlockIdentities.Count(i => i.Plugin == "stop-clear"));
    }

    private static RigDocuments Sample { get; } = new TestRig().Documents;

    private static PluginCatalog Plugins { get; } = PluginCatalog.Of("test", [], [new StopClearPlugin(), new OverSpeedPlugin(), new LidClosedPlugin(), new FailsafeConfirmedPlugin(), new TemperatureCeilingPlugin()]);

    private static InterlockDefinition Define(string id, string kind, params (string Name, object Value)[] options) =>
        new(id, kind, options.ToDictionary(o => o.Name, o => o.Value), null, null, InterlockScope.EveryStep);

    private static RigDocuments Changed(string kind, Func<InterlockDefinition, InterlockDefinition> change) =>
        Sample with { Rig = Sample.Rig with { Interlocks = [.. Sample.Rig.Interlocks.Select(i => i.Plugin == kind ? change(i) : i)] } };

    private static (int, string) Weakening(IReadOnlyList<InterlockDefinition> interlocks)
    {
        WeakenedCut weakened = Assert.Single(PowerCuts.Weakened(Sample.Rig with { Interlocks = interlocks }, Plugins));
        return (weakened.Place, weakened.Key);
    }

    private static AssembledRig Assemble(RigDocuments documents, TestRig? rig = null)
    {
        rig ??= new TestRig();
        return new RigAssembler(rig.Catalog, rig.Time).Assemble(documents, 1);
    }

    private static IReadOnlyList<string> Refused(RigDocuments documents, TestRig? rig = null) => Assert.Throws<AssemblyException>(() => Assemble(documents, rig)).Reasons;
}
