using RigControl.Analysis.Figures;
using RigControl.Analysis.Tests.Support;

namespace RigControl.Analysis.Tests.Figures;

public class OnceTests
{
    [Fact]
    public void What_several_figures_need_is_worked_out_at_the_first_question_only()
    {
        FigureContext context = Context();
        int worked = 0;
        Assert.Equal(7, context.Once("seven", () => 6 + ++worked));
        Assert.Equal(7, context.Once("seven", () => 6 + ++worked));
        Assert.Equal(8, context.Once("eight", () => 6 + ++worked));
    }

    [Fact]
    public void The_reason_why_there_is_none_is_kept_as_well()
    {
        FigureContext context = Context();
        int worked = 0;
        int Fails() => throw new NoFigureException($"tried {++worked} times");
        Assert.Equal("tried 1 times", Assert.Throws<NoFigureException>(() => context.Once("nothing", Fails)).Message);
        Assert.Equal("tried 1 times", Assert.Throws<NoFigureException>(() => context.Once("nothing", Fails)).Message);
    }

    [Fact]
    public void A_mistake_of_the_program_is_no_reason_and_is_not_kept()
    {
        FigureContext context = Context();
        Assert.Throws<InvalidOperationException>(() => context.Once<int>("broken", () => throw new InvalidOperationException()));
        Assert.Equal(3, context.Once("broken", () => 3));
    }

    private static FigureContext Context()
    {
        MadeTrace trace = new MadeTrace().Channel("rotor.speed", "rpm", _ => 1000).Repeat(1, 2, 3, 4);
        FigureInput input = new(trace.Build(), Articles.Disc, FigureContext.UsualRestSpeed);
        return new FigureContext(input, input.Trace.Segments[0]);
    }
}
