using System.Xml.Linq;

namespace Coldpeel.Hosts.Tests.Rules;

public sealed class DependencyPageTests
{
    [Fact]
    public void Every_package_has_its_licence_and_reason_on_the_page()
    {
        var page = File.ReadAllText(Path.Combine(Place.Root, "docs", "dependencies.md"));
        var packages = XDocument
            .Load(Path.Combine(Place.Root, "Directory.Packages.props"))
            .Descendants("PackageVersion")
            .Select(p => (string)p.Attribute("Include")!);
        Assert.All(packages, p => Assert.Contains($"`{p}`", page, StringComparison.Ordinal));
    }
}
