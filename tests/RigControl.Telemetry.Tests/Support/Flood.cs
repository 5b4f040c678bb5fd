using System.Text;
using MQTTnet.Protocol;

namespace RigControl.Telemetry.Tests.Support;

/// <summary>Hostile messages of every kind, one after the other, from a seed.</summary>
internal static class Flood
{
    private const int Seed = 4711;

    public static async Task Send(Reader hostile, Topics topics, int count)
    {
        TestContext.Current.TestOutputHelper?.WriteLine($"seed {Seed}");
        Random random = new(Seed);
        string expired = Orders.Stop("old", expiresIn: -5);
        for (int i = 0; i < count; i++)
        {
            (string topic, byte[] payload, bool retain) = (i % 5) switch
            {
                0 => (topics.Stop, Noise(random, 300), false),
                1 => (topics.Stop, Noise(random, 2000), false),
                2 => (topics.Acknowledge, Encoding.UTF8.GetBytes(expired), false),
                3 => (topics.Stop, Encoding.UTF8.GetBytes(Orders.Stop()), true),
                _ => (topics.Root + "/command/start", Encoding.UTF8.GetBytes(Orders.Stop()), false),
            };
            await hostile.Publish(topic, payload, retain, MqttQualityOfServiceLevel.AtMostOnce);
        }
    }

    private static byte[] Noise(Random random, int most)
    {
        byte[] noise = new byte[random.Next(1, most)];
        random.NextBytes(noise);
        return noise;
    }
}
