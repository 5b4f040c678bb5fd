using RigControl.Model.Rig;
using RigControl.Rehearsal.Runaway;

namespace RigControl.Rehearsal.Tests.Runaway;

/// <summary>The builder's rating is held against the runaway, and where there is none, that is said.</summary>
public class EnclosureVerdictTests
{
    private static readonly OverSpeedCut Early = new(6000, TimeSpan.FromMilliseconds(30));

    [Trait("Requirement", "SAF-082")]
    [Fact]
    public void A_runaway_above_the_rating_is_refused_with_both_and_the_source()
    {
        EnclosureVerdict verdict = Judge(Rated(150));
        Assert.True(verdict.IsRefused);
        Assert.Matches("^a runaway stores up to [0-9]+ J at [0-9]+ rpm \\(full pack, full throttle, least drag\\), more than the 150 J that box's enclosure is rated for \\(tried with a ball\\); take fewer cells", verdict.Sentence);
    }

    [Trait("Requirement", "SAF-082")]
    [Fact]
    public void A_verified_cut_that_acts_in_time_brings_it_within()
    {
        EnclosureVerdict verdict = Judge(Rated(150), Early);
        Assert.False(verdict.IsRefused);
        Assert.Contains("until the verified cut at 6000 rpm has removed the power within 0.03 s), within the 150 J", verdict.Sentence);
    }

    [Fact]
    public void A_cut_that_is_not_enough_is_said_in_the_refusal()
    {
        EnclosureVerdict verdict = Judge(Rated(20), Early);
        Assert.True(verdict.IsRefused);
        Assert.Contains("the verified cut at 6000 rpm", verdict.Sentence);
    }

    [Fact]
    public void A_rating_that_is_not_a_number_refuses() => Assert.True(Judge(Rated(double.NaN)).IsRefused);

    [Trait("Requirement", "SAF-082")]
    [Fact]
    public void An_enclosure_that_nobody_has_rated_is_said_to_be_one()
    {
        EnclosureVerdict verdict = Judge(Workshop.Rig with { EnclosureRating = null });
        Assert.False(verdict.IsRefused);
        Assert.EndsWith("and nobody has rated box's enclosure: enter its rating with its source, or keep the rotor off", verdict.Sentence);
    }

    [Fact]
    public void What_cannot_be_reckoned_is_said_with_what_is_missing()
    {
        Article bare = Workshop.Disc with { Motor = null };
        Assert.EndsWith("held against no runaway: the article disc-180 gives no motor", EnclosureVerdict.Of(Workshop.Rig, bare, null)!.Sentence);
        Assert.EndsWith("cannot be said either: the article disc-180 gives no motor", EnclosureVerdict.Of(Workshop.Rig with { EnclosureRating = null }, bare, null)!.Sentence);
    }

    [Fact]
    public void Without_a_rotor_there_is_nothing_to_contain() => Assert.Null(EnclosureVerdict.Of(Workshop.Rig, Workshop.Disc with { Rotor = null }, null));

    private static RigDefinition Rated(double rating) => Workshop.Rig with { EnclosureRating = rating, EnclosureSource = "tried with a ball" };

    private static EnclosureVerdict Judge(RigDefinition rig, OverSpeedCut? cut = null) => EnclosureVerdict.Of(rig, Workshop.Disc, cut)!;
}
