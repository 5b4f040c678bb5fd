using System.Diagnostics;
using System.Text.RegularExpressions;

namespace RigControl.Reports.Tests;

/// <summary>A real browser without a window. Tests that need one are skipped where there is none.</summary>
internal sealed partial class Browser : IDisposable
{
    private static readonly string[] Names = ["chromium", "chromium-browser", "google-chrome"];

    private static readonly string? Program = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .SelectMany(folder => Names.Select(name => Path.Combine(folder, name))).FirstOrDefault(File.Exists);

    private readonly string _folder = Directory.CreateTempSubdirectory("rigcontrol-browser-").FullName;

    public Browser() => Assert.SkipUnless(Program is not null, "there is no browser: apt install chromium");

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    /// <summary>Shows a page at a width, and gives what a script's expression comes to in it.</summary>
    /// <param name="width">CSS pixels. The page stands in a frame, since a window is never narrower than 500.</param>
    public string Ask(string page, int width, string expression, bool dark = false)
    {
        string asked = page.Replace("</body>", $"<script>onload = () => {{ parent.document.getElementById('answer').textContent = '<<' + ({expression}) + '>>'; }}</script></body>", StringComparison.Ordinal);
        string file = Write($"<!doctype html><body style=\"margin:0\"><p id=\"answer\"></p><iframe style=\"border:0\" width=\"{width}\" height=\"2000\" srcdoc=\"{System.Net.WebUtility.HtmlEncode(asked)}\"></iframe></body>");
        // 0 is dark and 1 is light.
        string shown = Run($"--blink-settings=preferredColorScheme={(dark ? 0 : 1)}", $"--window-size={Math.Max(width, 500)},2000", "--dump-dom", file);
        Match answer = Answer().Match(shown);
        Assert.True(answer.Success, "the page has not answered");
        return answer.Groups[1].Value;
    }

    /// <summary>Prints a page to PDF.</summary>
    public byte[] Print(string page)
    {
        string pdf = Path.Combine(_folder, "page.pdf");
        Run("--no-pdf-header-footer", $"--print-to-pdf={pdf}", Write(page));
        return File.ReadAllBytes(pdf);
    }

    private string Write(string page)
    {
        string file = Path.Combine(_folder, "page.html");
        File.WriteAllText(file, page);
        return "file://" + file;
    }

    private string Run(params string[] arguments)
    {
        using Process process = Process.Start(new ProcessStartInfo(Program!, ["--headless", "--no-sandbox", "--disable-gpu", $"--user-data-dir={_folder}/profile", .. arguments])
        {
            RedirectStandardOutput = true, RedirectStandardError = true,
        })!;
        Task<string> errors = process.StandardError.ReadToEndAsync();
        string shown = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, errors.Result);
        return shown;
    }

    [GeneratedRegex("&lt;&lt;(.*?)&gt;&gt;</p>", RegexOptions.Singleline)]
    private static partial Regex Answer();
}
