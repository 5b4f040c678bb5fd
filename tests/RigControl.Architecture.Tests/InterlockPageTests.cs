using System.Globalization;
using System.Reflection;
using System.Text;
using RigControl.Contracts;
using RigControl.Interlocks;

namespace RigControl.Architecture.Tests;

/// <summary>The tables of docs/interlocks.md are made from the plugins themselves. UPDATE_DOCS=1 writes them anew.</summary>
public class InterlockPageTests
{
    private const string Begin = "<!-- made from the code -->\n";
    private const string End = "<!-- end of what is made from the code -->";

    private static readonly IInterlockPlugin[] Plugins = [.. typeof(LidClosedPlugin).Assembly.GetExportedTypes()
        .Where(t => typeof(IInterlockPlugin).IsAssignableFrom(t) && !t.IsAbstract)
        .Select(t => (IInterlockPlugin)Activator.CreateInstance(t)!)
        .OrderBy(p => p.Requirement, StringComparer.Ordinal)];

    [Fact]
    public void The_page_of_interlocks_lists_what_the_plugins_say()
    {
        string path = Repository.At("docs", "interlocks.md");
        string page = File.ReadAllText(path).ReplaceLineEndings("\n");
        int from = page.IndexOf(Begin, StringComparison.Ordinal) + Begin.Length;
        int to = page.IndexOf(End, StringComparison.Ordinal);
        Assert.True(from >= Begin.Length && to >= from, "the page has lost its marks");
        if (Environment.GetEnvironmentVariable("UPDATE_DOCS") == "1")
        {
            File.WriteAllText(path, page[..from] + Tables() + page[to..]);
            return;
        }

        Assert.Equal(Tables(), page[from..to]);
    }

    [Fact]
    public void The_page_says_of_every_interlock_what_it_is_for_in_its_own_words_too()
    {
        string page = File.ReadAllText(Repository.At("docs", "interlocks.md")).ReplaceLineEndings("\n");
        string prose = page[page.IndexOf(End, StringComparison.Ordinal)..];
        Assert.Empty(Plugins.Where(p => !prose.Contains($"`{p.Kind}`", StringComparison.Ordinal)).Select(p => p.Kind));
    }

    private static string Tables()
    {
        StringBuilder text = new("\n| interlock | what must hold | channels | asks for | is let go by | requirement |\n|---|---|---|---|---|---|\n");
        foreach (IInterlockPlugin plugin in Plugins)
        {
            text.Append(CultureInfo.InvariantCulture,
                $"| `{plugin.Kind}` | {plugin.Meaning} | {Channels(plugin)} | `{OptionCheck.Kebab(plugin.Action.ToString())}`{(plugin.AlwaysCutsPower ? ", always" : "")} | `{OptionCheck.Kebab(plugin.Reset.ToString())}` | {plugin.Requirement} |\n");
        }

        text.Append("\n| interlock | option | meaning | range | default |\n|---|---|---|---|---|\n");
        foreach (IInterlockPlugin plugin in Plugins)
        {
            foreach (PropertyInfo option in Options(plugin))
                text.Append(CultureInfo.InvariantCulture, $"| `{plugin.Kind}` | `{OptionCheck.NameOf(option)}` | {Meaning(option)} | {Range(option)} | {Default(plugin, option)} |\n");
        }

        return text.Append('\n').ToString();
    }

    private static string Channels(IInterlockPlugin plugin) => string.Join(", ", Options(plugin)
        .Where(o => o.GetCustomAttribute<ChannelNameAttribute>() is not null)
        .Select(o => Initial(plugin, o) is string { Length: > 0 } name ? $"`{name}`" : "any"));

    private static IEnumerable<PropertyInfo> Options(IInterlockPlugin plugin) => plugin.OptionsType.GetProperties().OrderBy(p => p.MetadataToken);

    private static string Meaning(PropertyInfo option) => option.GetCustomAttribute<MeaningAttribute>()!.Sentence;

    private static string Range(PropertyInfo option)
    {
        if (option.GetCustomAttribute<QuantityAttribute>() is { } quantity)
            return $"{Number(quantity.Minimum)} {quantity.Unit} to {Number(quantity.Maximum)} {quantity.Unit}";
        return option.GetCustomAttribute<CountAttribute>() is { } count ? $"{count.Minimum} to {count.Maximum}" : "a channel's name";
    }

    private static string Default(IInterlockPlugin plugin, PropertyInfo option) => Initial(plugin, option) switch
    {
        null or "" or double.NaN => "–",
        double value => $"{Number(value)} {option.GetCustomAttribute<QuantityAttribute>()!.Unit}",
        object value => $"`{value}`",
    };

    private static object? Initial(IInterlockPlugin plugin, PropertyInfo option) => option.GetValue(Activator.CreateInstance(plugin.OptionsType));

    private static string Number(double value) => value.ToString("0.#########", CultureInfo.InvariantCulture);
}
