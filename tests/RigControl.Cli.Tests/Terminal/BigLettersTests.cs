using RigControl.Cli.Terminal;

namespace RigControl.Cli.Tests.Terminal;

public class BigLettersTests
{
    [Theory]
    [InlineData("SAFE-STOP")]
    [InlineData("IDLE")]
    [InlineData("ARMING")]
    [InlineData("READY")]
    [InlineData("WARNING")]
    [InlineData("SPIN-UP")]
    [InlineData("HOLD")]
    [InlineData("COAST-DOWN")]
    [InlineData("GATE OPEN")]
    public void Every_word_fits_a_narrow_terminal_and_is_wider_on_a_wide_one(string word)
    {
        string[] narrow = [.. BigLetters.Of(word, 78, '#')], wide = [.. BigLetters.Of(word, 198, '#')];
        Assert.Equal(BigLetters.Rows, narrow.Length);
        Assert.All(narrow, r => Assert.True(r.Length <= 78));
        Assert.All(wide, r => Assert.Equal(13 * word.Length - 3, r.Length));
    }

    [Fact]
    public void No_two_letters_look_alike()
    {
        string[] shapes = [.. "ACDEFGHILMNOPRSTUWY-".Select(c => string.Join('|', BigLetters.Of(c.ToString(), 5, '#')))];
        Assert.Equal(shapes.Length, shapes.Distinct().Count());
    }
}
