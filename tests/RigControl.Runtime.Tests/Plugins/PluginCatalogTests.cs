using RigControl.Runtime.Tests.Support;

namespace RigControl.Runtime.Tests.Plugins;

public sealed class PluginCatalogTests : IDisposable
{
    private readonly PluginFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void The_interlocks_load_with_their_version_and_the_digest_of_their_folder()
    {
        PluginCatalog catalog = _folder.AddInterlocks().Load();

        LoadedPlugin plugin = Assert.Single(catalog.Plugins);
        Assert.Empty(catalog.Broken);
        Assert.Equal("RigControl.Interlocks", plugin.Identity.Assembly);
        Assert.Equal("0.1.0", plugin.Identity.Version);
        Assert.Equal(64, plugin.Identity.Digest.Length);
        Assert.Contains("lid-closed", catalog.Kinds.Interlocks.Keys);
        Assert.Same(plugin, catalog.MakerOf("lid-closed"));
        Assert.Null(catalog.MakerOf("no-such-kind"));
    }

    [Fact]
    public void A_folder_that_is_not_there_holds_no_plugins()
    {
        PluginCatalog catalog = PluginCatalog.Load(Path.Combine(_folder.Root, "nowhere"));

        Assert.Empty(catalog.Plugins);
        Assert.Empty(catalog.Broken);
    }

    [Fact]
    public void A_folder_may_be_named_from_where_one_stands()
    {
        string from = Path.GetRelativePath(Environment.CurrentDirectory, _folder.AddInterlocks().Root);

        PluginCatalog catalog = PluginCatalog.Load(from);

        Assert.Empty(catalog.Broken);
        Assert.Single(catalog.Plugins);
    }

    [Fact]
    public void An_empty_folder_is_named() => OnlyBroken(_folder.AddEmpty("Empty"), "Empty", "the folder Empty holds no Empty.dll");

    [Fact]
    public void A_text_file_that_calls_itself_an_assembly_is_named() => OnlyBroken(_folder.AddText("Text", "not an assembly"), "Text", "");

    [Fact]
    public void An_assembly_without_a_contract_version_is_named() =>
        OnlyBroken(_folder.AddAssembly("Silent", null), "Silent", "Silent does not say which contract version it was built against");

    [Fact]
    public void An_assembly_of_another_major_contract_is_named_with_both_versions() =>
        OnlyBroken(_folder.AddAssembly("Older", (9, 0)), "Older", $"Older was built against contract 9.0; this host has {ContractVersion.Major}.{ContractVersion.Minor}");

    [Fact]
    public void An_assembly_of_a_later_minor_contract_is_named() =>
        OnlyBroken(_folder.AddAssembly("Later", (ContractVersion.Major, ContractVersion.Minor + 1)), "Later", "Later was built against contract");

    [Fact]
    public void A_plugin_that_throws_when_it_is_made_is_named_with_its_own_words() =>
        OnlyBroken(_folder.AddAssembly("Unmakeable", Current, typeof(UnmakeablePlugin)), "Unmakeable", "its licence has run out");

    [Fact]
    public void A_plugin_that_cannot_describe_its_options_is_named_and_harms_no_other() =>
        OnlyBroken(_folder.AddAssembly("Undescribable", Current, typeof(UndescribablePlugin)), "Undescribable", "its defaults are in a file that is not there");

    [Fact]
    public void A_sound_plugin_written_beside_the_others_is_loaded()
    {
        PluginCatalog catalog = _folder.AddInterlocks().AddAssembly("Sound", Current, typeof(SoundPlugin)).Load();

        Assert.Empty(catalog.Broken);
        Assert.Equal("Nothing is wrong with it.", catalog.Kinds.Devices["sound"].Meaning);
        Assert.Equal("2.3.4", catalog.MakerOf("sound")!.Identity.Version);
    }

    [Fact]
    public void Two_plugins_that_make_the_same_kind_do_not_leave_it_to_chance_which_one_a_rig_gets()
    {
        PluginCatalog catalog = _folder.AddAssembly("A", Current, typeof(SoundPlugin)).AddAssembly("B", Current, typeof(SoundPlugin)).Load();

        Assert.Equal("A", Assert.Single(catalog.Plugins).Identity.Assembly);
        Assert.Equal(new BrokenPlugin("B", "B makes sound, which A makes already; remove one of the two"), Assert.Single(catalog.Broken));
    }

    [Fact]
    public void Every_broken_plugin_of_a_folder_is_named_at_once()
    {
        PluginCatalog catalog = _folder.AddEmpty("A").AddText("B", "").AddAssembly("C", null).AddInterlocks().Load();

        Assert.Equal(["A", "B", "C"], catalog.Broken.Select(b => b.Assembly));
        Assert.All(catalog.Broken, b => Assert.NotEmpty(b.Reason));
        Assert.Single(catalog.Plugins);
    }

    [Fact]
    public void A_changed_dependency_changes_the_digest()
    {
        string before = Assert.Single(_folder.AddInterlocks().Load().Plugins).Identity.Digest;
        Assert.Equal(before, Assert.Single(_folder.Load().Plugins).Identity.Digest);

        File.WriteAllText(Path.Combine(_folder.Root, "RigControl.Interlocks", "limits.txt"), "80");

        Assert.NotEqual(before, Assert.Single(_folder.Load().Plugins).Identity.Digest);
    }

    private static (int Major, int Minor) Current => (ContractVersion.Major, ContractVersion.Minor);

    private static void OnlyBroken(PluginFolder folder, string name, string reason)
    {
        PluginCatalog catalog = folder.AddInterlocks().Load();
        BrokenPlugin broken = Assert.Single(catalog.Broken);
        Assert.Equal(name, broken.Assembly);
        Assert.StartsWith(reason, broken.Reason, StringComparison.Ordinal);
        Assert.NotEmpty(broken.Reason);
        Assert.Equal("RigControl.Interlocks", Assert.Single(catalog.Plugins).Identity.Assembly);
        Assert.Contains("over-speed", catalog.Interlocks.Keys);
    }
}
